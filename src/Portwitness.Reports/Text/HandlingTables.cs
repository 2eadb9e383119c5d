using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Passing through, opening, travel card and handling.</summary>
internal static class HandlingTables
{
    /// <summary>The headings of the parts.</summary>
    public const string PassThroughTitle = "Passing through", OpeningTitle = "Before and after opening";

    /// <summary>All parts that there are.</summary>
    public static void Write(TextWriter writer, ProductReport report, TextStyle style)
    {
        WriteTable(writer, PassThroughTitle, PassThrough(report), style);
        NextStepText.WriteList(writer, OpeningTitle, report.Opening, style);
        if (report.Travel is { } card)
        {
            WriteTable(writer, TravelTitle(card), Rules(card), style);
            foreach (string remark in Remarks(card))
            {
                Paragraph.WriteWrapped(writer, style, "  ", "  ", remark);
            }
        }

        NextStepText.WriteList(writer, HandlingTitle(report), report.Handling, style);
    }

    /// <summary>"Travel card, as of 2026-12-01".</summary>
    public static string TravelTitle(TravelCard card) => $"Travel card, as of {card.AsOf}";

    /// <summary>"Handling (opened)".</summary>
    public static string HandlingTitle(ProductReport report) => $"Handling ({report.State})";

    /// <summary>The energy that decides, then what is not known.</summary>
    public static IEnumerable<string> Remarks(TravelCard card) => card.Remarks.Prepend($"Energy: {card.Energy}.");

    /// <summary>A row a rule.</summary>
    public static TextTable Rules(TravelCard card)
    {
        TextTable table = new();
        table.Add("since", "where", "rule", "mark");
        foreach (TravelRule rule in card.Rules)
        {
            table.Add(rule.Since, rule.Where, rule.Rule, rule.Mark);
        }

        return table;
    }

    /// <summary>A row for each way in which ports took and gave power.</summary>
    public static TextTable PassThrough(ProductReport report)
    {
        TextTable table = new();
        table.Add("in", "out", "power in", "power out", "into the pack, losses included", "when the input leaves");
        foreach (PassThrough passing in report.PassThrough)
        {
            table.Add(
                string.Join(", ", passing.Inputs), string.Join(", ", passing.Outputs),
                passing.HasInMw ? Watts(passing.InMw) : "not read", passing.HasOutMw ? Watts(passing.OutMw) : "not read",
                passing.HasIntoPackMw ? Watts(passing.IntoPackMw) : "", string.Join("; ", passing.WithoutInput.Select(Left)));
        }

        return table;
    }

    private static string Left(OutputWithoutInput one) =>
        $"{one.Port} {(one.GoesOn ? "goes on" : "drops")}, {Amounts.Volts(one.MeasuredMv)} {Amounts.Amperes(one.MeasuredMa)}";

    private static string Watts(long milliwatts) => (milliwatts / 1000m).ToString("0.##", System.Globalization.CultureInfo.InvariantCulture) + " W";

    private static void WriteTable(TextWriter writer, string title, TextTable table, TextStyle style)
    {
        if (table.Rows.Count > 1)
        {
            writer.WriteLine();
            writer.WriteLine(style.Heading(title));
            table.Write(writer, "  ");
        }
    }
}
