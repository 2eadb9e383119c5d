using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Findings, the gravest first, each with its evidence.</summary>
internal static class FindingText
{
    public static void Write(TextWriter writer, IReadOnlyCollection<Finding> findings, TextStyle style)
    {
        writer.WriteLine();
        writer.WriteLine(style.Heading("Findings: ") + Summary(findings));
        foreach (Finding finding in findings.OrderBy(f => f.Severity))
        {
            writer.WriteLine();
            WriteOne(writer, finding, style);
        }
    }

    /// <summary>"2 mismatches, 1 caution", or "none".</summary>
    public static string Summary(IEnumerable<Finding> findings)
    {
        Dictionary<Severity, int> counts = findings.CountBy(finding => finding.Severity).ToDictionary();
        string[] parts =
        [
            .. new[]
            {
                (Severity.Violation, "violation", "violations"), (Severity.Mismatch, "mismatch", "mismatches"),
                (Severity.Caution, "caution", "cautions"), (Severity.Note, "note", "notes"),
            }
            .Where(entry => counts.ContainsKey(entry.Item1))
            .Select(entry => Amounts.Count(counts[entry.Item1], entry.Item2, entry.Item3)),
        ];
        return parts.Length == 0 ? "none" : string.Join(", ", parts);
    }

    private static void WriteOne(TextWriter writer, Finding finding, TextStyle style)
    {
        const string Indent = "    ";
        writer.WriteLine($"  {style.Severity(finding.Severity)} {VisibleText.Of(finding.Rule)}{VerdictOf(finding)}");
        Paragraph.WriteWrapped(writer, style, Indent, Indent, finding.Title);
        foreach ((string label, string text) in Lines(finding))
        {
            Paragraph.Write(writer, style, Indent, label, text);
        }
    }

    /// <summary>" (fails)", " (cannot tell)", or nothing for a note.</summary>
    public static string VerdictOf(Finding finding) => finding.Verdict switch
    {
        Verdict.Fails => " (fails)",
        Verdict.CannotTell => " (cannot tell)",
        _ => "",
    };

    /// <summary>The evidence, each line with its label; texts may be empty.</summary>
    public static (string Label, string Text)[] Lines(Finding finding) =>
    [
        ("found", finding.Detail), ("expected", finding.Expected), ("observed", finding.Observed),
        ("where", FindingPlaces.First(finding)), ("also", FindingPlaces.Further(finding)), ("by", finding.Clause), ("next", finding.NextStep),
    ];
}
