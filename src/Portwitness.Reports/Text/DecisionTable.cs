using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What was measured and has limits, with its uncertainty, and by which rule it was decided.</summary>
internal static class DecisionTable
{
    public const string Title = "Measured against limits";

    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        if (report.Decisions.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading(Title));
        Of(report).Write(writer, "  ");
        Paragraph.WriteWrapped(writer, style, "  ", "  ", Rule(report));
    }

    /// <summary>A row for each.</summary>
    public static TextTable Of(ProductReport report)
    {
        TextTable table = new();
        table.Add("port", "in use", "what", "read", "U (k = 2)", "allowed", "word", "verdict");
        foreach (MeasuredDecision one in report.Decisions)
        {
            table.Add(
                one.Port, string.Join('+', one.InUse), one.About, Amount(one.Value, one.Unit), Amount(one.Expanded, one.Unit), Allowed(one), one.Word,
                ProductText.Word(one.Verdict));
        }

        return table;
    }

    /// <summary>The rule, in a sentence.</summary>
    public static string Rule(ProductReport report) => report.DecisionRule == "guarded"
        ? "Decision rule: guarded acceptance. What is inside its limits by less than its uncertainty, or outside by no more, cannot be told."
        : "Decision rule: simple acceptance. What is inside its limits holds where the accuracy of the meter is stated; what is outside fails where it is outside by more than its uncertainty.";

    private static string Allowed(MeasuredDecision one) => (one.HasLeast, one.HasMost) switch
    {
        (true, true) => $"{Amount(one.Least, one.Unit)} to {Amount(one.Most, one.Unit)}",
        (true, _) => $"at least {Amount(one.Least, one.Unit)}",
        _ => $"at most {Amount(one.Most, one.Unit)}",
    };

    private static string Amount(long value, string unit) => unit switch
    {
        "uV" => string.Create(CultureInfo.InvariantCulture, $"{value / 1_000_000m:0.####} V"),
        "uAh" => string.Create(CultureInfo.InvariantCulture, $"{value / 1_000m:0.#} mAh"),
        "mW" => string.Create(CultureInfo.InvariantCulture, $"{value / 1_000m:0.###} W"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{value / 10_000m:0.##} %"),
    };
}
