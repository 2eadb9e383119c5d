using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Markdown;

/// <summary>Findings, the gravest first, each with its evidence.</summary>
internal static class MarkdownFindings
{
    public static void Write(TextWriter writer, IReadOnlyCollection<Finding> findings)
    {
        if (findings.Count == 0)
        {
            return;
        }

        MarkdownReport.WriteHeading(writer, "Findings");
        foreach (Finding finding in findings.OrderBy(static one => one.Severity))
        {
            writer.WriteLine();
            writer.WriteLine($"### {TextStyle.Plain.Severity(finding.Severity)}: {MarkdownText.Of(finding.Title)}");
            writer.WriteLine();
            writer.WriteLine($"- **rule**: {MarkdownText.Code(finding.Rule)}{FindingText.VerdictOf(finding)}");
            foreach ((string label, string text) in FindingText.Lines(finding).Where(static line => line.Text.Length > 0))
            {
                writer.WriteLine($"- **{label}**: {MarkdownText.Of(text)}");
            }
        }
    }
}
