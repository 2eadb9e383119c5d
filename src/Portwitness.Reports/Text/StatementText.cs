using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>The printed statements, each with its verdict and evidence.</summary>
internal static class StatementText
{
    private const int VerdictColumns = 11;

    /// <summary>What the statements are of.</summary>
    public static string Heading(bool byHand, string name = "") => byHand ? "What the ratings say, entered by hand"
        : name.Length == 0 || name == "label" ? "What the label says" : $"What the label \"{name}\" says";

    /// <summary>"Of 9 printed statements 7 hold, 1 fail, 1 cannot be told.", counted from the list: earlier reports have no counts.</summary>
    public static string Counts(IReadOnlyCollection<Statement> statements)
    {
        int Count(Verdict verdict) => statements.Count(statement => statement.Verdict == verdict);
        (int holds, int fails) = (Count(Verdict.Holds), Count(Verdict.Fails));
        return $"Of {Amounts.Count(statements.Count, "printed statement", "printed statements")} {Amounts.Number(holds)} hold, {Amounts.Number(fails)} fail, "
            + $"{Amounts.Number(statements.Count - holds - fails)} cannot be told.";
    }

    public static void Write(TextWriter writer, IReadOnlyCollection<Statement> statements, string heading, TextStyle style)
    {
        if (statements.Count == 0)
        {
            return;
        }

        const string Indent = "               ";
        writer.WriteLine();
        writer.WriteLine(style.Heading(VisibleText.Of(heading)));
        writer.WriteLine($"  {Counts(statements)}");
        foreach (Statement statement in statements)
        {
            string verdict = style.Verdict(statement.Verdict)
                + new string(' ', VerdictColumns - ProductText.Word(statement.Verdict).Length);
            string place = string.Create(
                CultureInfo.InvariantCulture, $"line {statement.LabelLine}, column {statement.LabelColumn}");
            writer.WriteLine($"  {verdict}  {VisibleText.Of(statement.Claim)} ({place})");
            WriteUnder(statement.Evidence);
            WriteUnder(statement.NextStep.Length > 0 ? $"next: {statement.NextStep}" : "");
        }

        void WriteUnder(string text)
        {
            if (text.Length > 0)
            {
                Paragraph.WriteWrapped(writer, style, Indent, Indent, text);
            }
        }
    }
}
