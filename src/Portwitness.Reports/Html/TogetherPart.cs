using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>What ports do together.</summary>
internal static class TogetherPart
{
    public static XElement? Of(ProductReport report) => report.Sharing is not { } sharing ? null : Markup.Section(
        "together", "Ports together",
        Markup.Element("p", sharing.Sentence),
        Markup.Terms(("seen", sharing.Evidence), ("next", sharing.NextStep), ("combinations", sharing.HasCombinationsPrinted ? ArrangementText.Combinations(sharing) : "")),
        Markup.Table(ArrangementText.Arrangements(report.Arrangements), "Every port under every arrangement that was captured"),
        Markup.Table(ArrangementText.Changes(report.NeighbourChanges), "What ports went through when others came and went"));
}
