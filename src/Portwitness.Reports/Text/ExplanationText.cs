using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>One message bit by bit: where, which field, the bits, what they mean, and the table that says so.</summary>
internal static class ExplanationText
{
    public static void Write(TextWriter writer, Explanation explanation, TextStyle style)
    {
        writer.WriteLine();
        writer.WriteLine(style.Heading(VisibleText.Of($"Message {explanation.MessageIndex} bit by bit: {explanation.Message}")));
        TextTable table = new();
        table.Add("where", "field", "raw", "means", "by");
        foreach (ExplainedField field in explanation.Fields)
        {
            table.Add(field.Range, field.Name, field.Raw, field.Meaning, field.Clause);
        }

        table.Write(writer, "  ");
    }
}
