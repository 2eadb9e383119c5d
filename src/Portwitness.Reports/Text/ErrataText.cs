using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Errata as they can be published.</summary>
public static class ErrataText
{
    internal static readonly (string Subject, string Heading)[] Order =
        [("statement", "Printed statements"), ("finding", "Findings"), ("claim", "Claims beside the label"), ("measured", "Measured otherwise")];

    /// <summary>Writes the errata.</summary>
    public static void Write(TextWriter writer, Errata errata, TextStyle style)
    {
        ArgumentNullException.ThrowIfNull(errata);
        writer.WriteLine(style.Heading($"Errata: {VisibleText.Of(errata.After.Product)}"));
        Paragraph.WriteWrapped(writer, style, "", "", Summary(errata));
        foreach ((string subject, string heading) in Order.Where(one => errata.Entries.Any(entry => entry.Subject == one.Subject)))
        {
            writer.WriteLine();
            writer.WriteLine(style.Heading(heading));
            foreach (ErrataEntry entry in errata.Entries.Where(entry => entry.Subject == subject))
            {
                Paragraph.WriteWrapped(writer, style, "  - ", "    ", VisibleText.Of(Sentence(entry)));
                foreach (string line in Behind(entry))
                {
                    Paragraph.WriteWrapped(writer, style, "      ", "        ", VisibleText.Of(line));
                }
            }
        }

        if (errata.Unlisted > 0)
        {
            writer.WriteLine($"and {Amounts.Count(errata.Unlisted, "other change", "other changes")}");
        }

        NextStepText.WriteList(writer, "Between the two reports", errata.Changes, style);
    }

    internal static string Summary(Errata errata)
    {
        int statements = errata.Entries.Count(static entry => entry.Subject == "statement");
        string verdict = errata.Before.Verdict == errata.After.Verdict ? $"The verdict stays {ProductText.Word(errata.After.Verdict)}."
            : $"The verdict was {ProductText.Word(errata.Before.Verdict)} and is {ProductText.Word(errata.After.Verdict)}.";
        string changed = statements == 0 ? "No printed statement changes" : $"{Amounts.Count(statements, "printed statement changes", "printed statements change")}";
        return $"{verdict} {changed}; {Amounts.Number(errata.Unchanged)} stay as they were.";
    }

    internal static string Sentence(ErrataEntry entry)
    {
        string line = entry.HasLabelLine ? $"Line {Amounts.Number(entry.LabelLine)}: " : entry.Port.Length > 0 && entry.Subject != "statement" ? $"{entry.Port}: " : "";
        string change = entry.Change switch
        {
            "added" => $"is new: {entry.After}",
            "gone" => $"is withdrawn; it was {entry.Before}",
            _ => $"was {entry.Before}, is {entry.After}",
        };
        return $"{line}{entry.About} {change}.";
    }

    internal static IEnumerable<string> Behind(ErrataEntry entry)
    {
        if (entry.BeforeEvidence.Length > 0)
        {
            yield return $"then: {entry.BeforeEvidence}";
        }

        if (entry.AfterEvidence.Length > 0)
        {
            yield return $"now: {entry.AfterEvidence}";
        }

        yield return $"because: {string.Join("; ", entry.Reasons)}";
    }
}
