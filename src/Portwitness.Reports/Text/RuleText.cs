using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>The rule catalogue for people.</summary>
public static class RuleText
{
    // R1.0, R2.0, R3.0, R3.1 and R3.2.
    private const int EditionsInAll = 5;

    /// <summary>One line a rule.</summary>
    public static void WriteList(TextWriter writer, IEnumerable<RuleDescription> rules)
    {
        TextTable table = new();
        table.Add("rule", "worst", "about", "title");
        foreach (RuleDescription rule in rules)
        {
            table.Add(rule.Name, TextStyle.Plain.Severity(rule.Severity), rule.Category, rule.Title);
        }

        table.Write(writer, "");
    }

    // The contract names each edition; people read "every" faster.
    private static string Editions(RuleDescription rule) =>
        rule.Editions.Count == EditionsInAll ? "every edition" : string.Join(", ", rule.Editions);

    /// <summary>Which rules were left out, when any were: a result without them is no full one.</summary>
    public static void WriteSelection(TextWriter writer, RuleSelection? rules, TextStyle style)
    {
        foreach (string sentence in Selection(rules))
        {
            Paragraph.WriteWrapped(writer, style, "", "  ", sentence);
        }
    }

    /// <summary>The same, a sentence each; none when all rules were applied.</summary>
    public static IEnumerable<string> Selection(RuleSelection? rules)
    {
        if (rules is { Only.Count: > 0 })
        {
            yield return $"Only these rules were applied: {string.Join(", ", rules.Only)}";
        }

        if (rules is { Without.Count: > 0 })
        {
            yield return $"These rules were left out: {string.Join(", ", rules.Without)}";
        }
    }

    /// <summary>One rule with its clause, reason and example.</summary>
    public static void WriteOne(TextWriter writer, RuleDescription rule, TextStyle style)
    {
        writer.WriteLine(style.Heading(VisibleText.Of(rule.Name)));
        Paragraph.WriteWrapped(writer, style, "  ", "  ", rule.Title);
        writer.WriteLine();
        Paragraph.Write(writer, style, "  ", "worst", TextStyle.Plain.Severity(rule.Severity));
        Paragraph.Write(writer, style, "  ", "about", rule.Category);
        Paragraph.Write(writer, style, "  ", "by", rule.Clause);
        Paragraph.Write(writer, style, "  ", "in", Editions(rule));
        Paragraph.Write(writer, style, "  ", "why", rule.Why);
        if (rule.Evidence.Length > 0)
        {
            Paragraph.Write(writer, style, "  ", "needs", rule.Evidence);
        }

        Paragraph.Write(writer, style, "  ", "example", rule.Example);
    }
}
