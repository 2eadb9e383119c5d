using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>How a label was read, for people.</summary>
public static class LabelText
{
    /// <summary>Every rating that was read, then what was not, then findings.</summary>
    public static void Write(TextWriter writer, Label label, TextStyle style)
    {
        TextTable table = new();
        foreach (PrintedInput input in label.Inputs)
        {
            table.Add("input", input.Port, PrintedWords.Input(input), "", "", Place(input.Line, input.Column));
        }

        foreach (PrintedOutput output in label.Outputs)
        {
            AddOutput(table, output);
        }

        foreach (PrintedCombination combination in label.Combinations)
        {
            table.Add(
                "together", string.Join(" + ", combination.Ports), PrintedWords.Combination(combination), "",
                combination.HasTotalPowerMw ? Amounts.Watts(combination.TotalPowerMw) : "", Place(combination.Line, combination.Column));
        }

        if (label.Total is { } total)
        {
            table.Add("total", total.Scope, "", "", Amounts.Watts(total.PowerMw), Place(total.Line, total.Column));
        }

        if (label.Battery is { } battery)
        {
            table.Add("battery", "", PrintedWords.Battery(battery), "", "", Place(battery.Line, battery.Column));
        }

        foreach (PrintedRemark remark in label.Remarks)
        {
            table.Add("remark", "", remark.Text, "", "", Place(remark.Line, remark.Column));
        }

        writer.WriteLine(style.Heading("Label as read"));
        table.Write(writer, "  ");
        WriteUnread(writer, label, style);
        FindingText.Write(writer, label.Findings, style);
    }

    internal static void WriteUnread(TextWriter writer, Label label, TextStyle style)
    {
        writer.WriteLine();
        writer.WriteLine(style.Heading("Label text not read:") + (label.Unread.Count == 0 ? " none" : ""));
        TextTable table = new();
        foreach (UnreadSpan span in label.Unread)
        {
            table.Add(Place(span.Line, span.Column), span.Text);
        }

        table.Write(writer, "  ");
    }

    private static void AddOutput(TextTable table, PrintedOutput output)
    {
        foreach (PrintedFixed mode in output.Fixed)
        {
            table.Add(
                "output", output.Port, Amounts.Volts(mode.VoltageMv), Amounts.Amperes(mode.CurrentMa),
                mode.HasPowerMw ? Amounts.Watts(mode.PowerMw) : "", Place(mode.Line, mode.Column), mode.Protocol);
        }

        foreach (PrintedRange range in output.Ranges)
        {
            table.Add(
                "output", output.Port, Amounts.VoltRange(range.MinVoltageMv, range.MaxVoltageMv), Amounts.Amperes(range.CurrentMa),
                range.HasPowerMw ? Amounts.Watts(range.PowerMw) : "", Place(range.Line, range.Column), range.Kind);
        }

        if (output.HasMaxPowerMw)
        {
            string place = string.Create(CultureInfo.InvariantCulture, $"line {output.MaxPowerLine}");
            table.Add("output", output.Port, "at most", "", Amounts.Watts(output.MaxPowerMw), place);
        }
    }

    private static string Place(int line, int column) =>
        string.Create(CultureInfo.InvariantCulture, $"line {line}, column {column}");
}
