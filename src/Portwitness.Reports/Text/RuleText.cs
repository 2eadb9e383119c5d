using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>The rule catalogue for people.</summary>
public static class RuleText
{
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

    /// <summary>One rule with its clause, reason and example.</summary>
    public static void WriteOne(TextWriter writer, RuleDescription rule, TextStyle style)
    {
        writer.WriteLine(style.Heading(VisibleText.Of(rule.Name)));
        Paragraph.WriteWrapped(writer, style, "  ", "  ", rule.Title);
        writer.WriteLine();
        Paragraph.Write(writer, style, "  ", "worst", TextStyle.Plain.Severity(rule.Severity));
        Paragraph.Write(writer, style, "  ", "about", rule.Category);
        Paragraph.Write(writer, style, "  ", "by", rule.Clause);
        Paragraph.Write(writer, style, "  ", "why", rule.Why);
        Paragraph.Write(writer, style, "  ", "example", rule.Example);
    }
}
