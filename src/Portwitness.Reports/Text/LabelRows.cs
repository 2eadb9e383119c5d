using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>What was read, by the line and the column that it is printed at.</summary>
internal sealed class LabelRows
{
    private readonly Dictionary<int, List<(int Column, string[] Cells)>> _rows = [];

    public static LabelRows Of(Label label)
    {
        LabelRows rows = new();
        foreach (PrintedInput input in label.Inputs)
        {
            rows.Add(input.Line, input.Column, "input", input.Port, PrintedWords.Input(input), "", "", input.Protocol);
        }

        foreach (PrintedInputMaximum maximum in label.InputMaxima)
        {
            rows.Add(maximum.Line, maximum.Column, "input", maximum.Port, "at most", "", Amounts.Watts(maximum.PowerMw));
        }

        foreach (PrintedOutput output in label.Outputs)
        {
            rows.Add(output);
        }

        foreach (PrintedPad pad in label.Pads)
        {
            rows.Add(pad.Line, pad.Column, "pad", pad.Name, string.Join(" or ", pad.PowerMw.Select(static power => Amounts.Watts(power))));
        }

        foreach (PrintedCombination combination in label.Combinations)
        {
            rows.Add(
                combination.Line, combination.Column, "together", string.Join(" + ", combination.Ports),
                PrintedWords.Combination(combination), "", combination.HasTotalPowerMw ? $"{Amounts.Watts(combination.TotalPowerMw)} in total" : "");
        }

        foreach ((PrintedCombination reading, int index) in label.Ambiguous.SelectMany(static either => either.Readings.Select(static (reading, index) => (reading, index))))
        {
            rows.Add(
                reading.Line, reading.Column, index == 0 ? "either" : "or", string.Join(" + ", reading.Ports),
                PrintedWords.Combination(reading), "", reading.HasTotalPowerMw ? $"{Amounts.Watts(reading.TotalPowerMw)} in total" : "");
        }

        if (label.Total is { } total)
        {
            rows.Add(total.Line, total.Column, "total", total.Scope, "", "", Amounts.Watts(total.PowerMw));
        }

        foreach (PrintedBattery statement in Batteries(label))
        {
            rows.Add(statement.Line, statement.Column, "battery", "", PrintedWords.Battery(statement));
        }

        foreach (PrintedPerformance figure in label.Performance)
        {
            rows.Add(figure.Line, figure.Column, figure.Kind.Replace('_', ' '), "", PrintedWords.Performance(figure));
        }

        foreach (PrintedRemark remark in label.Remarks)
        {
            rows.Add(remark.Line, remark.Column, "remark", "", remark.Text);
        }

        return rows;
    }

    /// <summary>The rows of a line, in the order of their columns.</summary>
    public void Write(TextWriter writer, int line, string indent)
    {
        if (_rows.TryGetValue(line, out List<(int Column, string[] Cells)>? rows))
        {
            TextTable table = new();
            foreach ((int column, string[] cells) in rows.OrderBy(static row => row.Column))
            {
                table.Add([$"column {Amounts.Number(column)}", .. cells]);
            }

            table.Write(writer, indent);
        }
    }

    // Reports of earlier versions have all figures in one.
    private static RepeatedField<PrintedBattery> Batteries(Label label) => label.Battery is not { } battery ? []
        : battery.Statements.Count > 0 ? battery.Statements : [battery];

    private void Add(PrintedOutput output)
    {
        string port = output.CaptiveCable ? $"{output.Port} (captive)" : output.Port;
        foreach (PrintedFixed mode in output.Fixed)
        {
            Add(mode.Line, mode.Column, "output", port, Amounts.Volts(mode.VoltageMv), Amounts.Amperes(mode.CurrentMa),
                mode.HasPowerMw ? Amounts.Watts(mode.PowerMw) : "", mode.Protocol);
        }

        foreach (PrintedRange range in output.Ranges)
        {
            Add(range.Line, range.Column, "output", port, Amounts.VoltRange(range.MinVoltageMv, range.MaxVoltageMv),
                Amounts.Amperes(range.CurrentMa), range.HasPowerMw ? Amounts.Watts(range.PowerMw) : "", range.Kind);
        }

        foreach (PrintedAlternating mains in output.Alternating)
        {
            Add(mains.Line, mains.Column, "output", port, PrintedWords.Alternating(mains));
        }

        if (output.HasMaxPowerMw)
        {
            Add(output.MaxPowerLine, output.MaxPowerColumn, "output", port, "at most", "", Amounts.Watts(output.MaxPowerMw));
        }

        foreach (PrintedProtocolMaximum maximum in output.ProtocolMaxima)
        {
            Add(maximum.Line, maximum.Column, "output", port, "at most", "", Amounts.Watts(maximum.PowerMw), maximum.Protocol);
        }
    }

    private void Add(int line, int column, params string[] cells)
    {
        if (!_rows.TryGetValue(line, out List<(int, string[])>? rows))
        {
            rows = _rows[line] = [];
        }

        rows.Add((column, cells));
    }
}
