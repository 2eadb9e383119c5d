using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What differs between two reports.</summary>
public static class ComparisonText
{
    /// <summary>Which two, then what was added, is gone or has changed.</summary>
    public static void Write(TextWriter writer, ReportComparison comparison, TextStyle style)
    {
        writer.WriteLine($"before  {About(comparison.Before, style)}");
        writer.WriteLine($"after   {About(comparison.After, style)}");
        writer.WriteLine();
        writer.WriteLine(style.Heading(comparison.Differences.Count == 0 ? "Nothing differs"
            : Amounts.Count(comparison.Differences.Count + comparison.Unlisted, "difference", "differences")));
        if (comparison.Differences.Count > 0)
        {
            Differences(comparison).Write(writer, "  ");
        }

        if (comparison.Unlisted > 0)
        {
            writer.WriteLine($"  and {Amounts.Count(comparison.Unlisted, "other", "others")}");
        }

        if (comparison.Measured.Count > 0)
        {
            writer.WriteLine();
            writer.WriteLine(style.Heading("Measured by both"));
            Measured(comparison).Write(writer, "  ");
        }

        NextStepText.WriteList(writer, "Captured of one only, and not compared", comparison.NotCaptured, style);
    }

    /// <summary>A row for each difference.</summary>
    public static TextTable Differences(ReportComparison comparison)
    {
        TextTable table = new();
        table.Add("", "what", "port", "in use", "about", "before", "after");
        foreach (Difference one in comparison.Differences)
        {
            table.Add(one.Change, one.Subject, one.Port, string.Join("+", one.InUse), one.About, OrNone(one.Before), OrNone(one.After));
        }

        return table;
    }

    /// <summary>A row for each quantity.</summary>
    public static TextTable Measured(ReportComparison comparison)
    {
        TextTable table = new();
        table.Add("port", "in use", "about", "before", "after", "unit", "");
        foreach (MeasuredPair pair in comparison.Measured)
        {
            table.Add(
                pair.Port, string.Join("+", pair.InUse), pair.About, Amounts.Number(pair.Before), Amounts.Number(pair.After), pair.Unit, pair.Verdict switch
                {
                    "same" => "the same within what the meters leave open",
                    "differs" => "differs by more than the meters leave open",
                    _ => "",
                });
        }

        return table;
    }

    private static string About(ComparedReport report, TextStyle style)
    {
        string sample = report.Sample.Length > 0 ? $", sample {report.Sample}" : "";
        string firmware = report.Firmware.Length > 0 ? $", firmware {report.Firmware}" : "";
        return $"{VisibleText.Of(report.Product + sample + firmware)}: {style.Verdict(report.Verdict)}";
    }

    private static string OrNone(string text) => text.Length > 0 ? text : "none";
}
