using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>Findings, the gravest first, each with its evidence and clause.</summary>
internal static class FindingPart
{
    public static XElement? Of(IReadOnlyCollection<Finding> findings) => Markup.Section(
        "findings", "Findings",
        findings.Count == 0 ? Markup.Element("p", "None.") : null,
        findings.OrderBy(finding => finding.Severity).Select(One).ToArray());

    private static XElement One(Finding finding)
    {
        string severity = TextStyle.Plain.Severity(finding.Severity);
        return Markup.Element(
            "article", Markup.Class($"finding {severity}"),
            Markup.Element("h3", Markup.Element("span", Markup.Class("severity"), severity), " " + finding.Title),
            Markup.Element("p", finding.Detail),
            Markup.Terms([.. FindingText.Lines(finding).Skip(1), ("rule", finding.Rule)]));
    }
}
