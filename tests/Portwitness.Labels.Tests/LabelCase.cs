using System.Globalization;
using System.Runtime.CompilerServices;

namespace Portwitness.Labels.Tests;

/// <summary>
/// A case of Data/*.txt: "# what makes it hard", the label's lines, then "> " and each line of the expected reading. The cases
/// are invented after the forms that rating plates have (common practice; triplets: European Commission FAQ on external power
/// supplies; slash and hyphen between voltages: IEC 60950-1 1.7.1).
/// </summary>
public sealed record LabelCase(string Remark, string Text, string Expected)
{
    public static IReadOnlyList<LabelCase> All { get; } = [.. Directory.GetFiles(Folder(), "*.txt").Order(StringComparer.Ordinal).SelectMany(Read)];

    public static IEnumerable<object[]> Remarks => All.Select(static labelCase => new object[] { labelCase.Remark });

    /// <summary>A reading as text: one line for each printed thing, in the order of the model.</summary>
    public static string Describe(Label label) => string.Join('\n', Lines(label));

    private static string Folder([CallerFilePath] string file = "") => Path.Combine(Path.GetDirectoryName(file)!, "Data");

    private static IEnumerable<LabelCase> Read(string file)
    {
        foreach (string block in ("\n" + File.ReadAllText(file)).Split("\n# ").Skip(1))
        {
            string[] lines = block.TrimEnd('\n').Split('\n');
            yield return new LabelCase(
                lines[0],
                string.Join('\n', lines.Skip(1).Where(static line => !line.StartsWith("> ", StringComparison.Ordinal))),
                string.Join('\n', lines.Where(static line => line.StartsWith("> ", StringComparison.Ordinal)).Select(static line => line[2..])));
        }
    }

    private static IEnumerable<string> Lines(Label label)
    {
        foreach (PrintedInput input in label.Inputs)
        {
            string volts = input.MinimumVoltage == input.MaximumVoltage
                ? $"{input.MinimumVoltage}" : $"{Decimal(input.MinimumVoltage.Millivolts)}-{input.MaximumVoltage}";
            string hertz = input.FrequenciesHz.IsEmpty ? "" : $" {string.Join('/', input.FrequenciesHz)} Hz";
            yield return $"{At(input.At)} input{Word(input.Port)}{Word(input.Protocol)}{(input.Alternating ? " AC" : "")} {volts}{Word(input.Current)}{Word(input.Power)}{hertz}";
        }

        foreach (PrintedInputMaximum maximum in label.InputMaxima)
        {
            yield return $"{At(maximum.At)} input{Word(maximum.Port)} max {maximum.Power}";
        }

        foreach (PrintedOutput output in label.Outputs)
        {
            yield return $"{At(output.At)} {output.Port}{(output.IsCaptiveCable ? " captive" : "")}{(output.Incomplete ? " incomplete" : "")}";
            foreach (PrintedFixed mode in output.Fixed)
            {
                yield return $"{At(mode.At)} {output.Port}{Word(mode.Protocol)} {mode.Voltage} {mode.Current} step {mode.CurrentStep.Milliamperes}{Word(mode.Power)}";
            }

            foreach (PrintedRange range in output.Ranges)
            {
                yield return $"{At(range.At)} {output.Port} {range.Kind ?? "range"} {Decimal(range.Minimum.Millivolts)}-{range.Maximum} {range.Current} step {range.CurrentStep.Milliamperes}{Word(range.Power)}";
            }

            foreach (PrintedAlternating mains in output.Alternating)
            {
                string volts = mains.Minimum == mains.Maximum ? $"{mains.Minimum}" : $"{Decimal(mains.Minimum.Millivolts)}-{mains.Maximum}";
                string hertz = mains.FrequenciesHz.IsEmpty ? "" : $" {string.Join('/', mains.FrequenciesHz)} Hz";
                yield return $"{At(mains.At)} {output.Port} AC {volts}{Word(mains.Current)}{Word(mains.Power)}{hertz}";
            }

            if (output.Maximum is { } maximum)
            {
                yield return $"{At(maximum.At)} {output.Port} max {maximum.Power}";
            }

            foreach (PrintedMaximum one in output.ProtocolMaxima)
            {
                yield return $"{At(one.At)} {output.Port} {one.Protocol} max {one.Power}";
            }
        }

        foreach (PrintedPad pad in label.Pads)
        {
            yield return $"{At(pad.At)} pad {pad.Name} {string.Join(" or ", pad.Powers)}";
        }

        foreach (PrintedCombination together in label.Combinations.Concat(label.Ambiguous.SelectMany(static either => either.Readings)))
        {
            string word = label.Combinations.Contains(together) ? "together" : "either";
            string split = string.Join(", ", together.Split.Select(static share =>
                $"{share.Port}{Word(share.Power)}{string.Concat(share.Fixed.Select(static mode => $" {mode.Voltage} {mode.Current}"))}"
                + string.Concat(share.Ranges.Select(static range => $" {range.Kind ?? "range"} {Decimal(range.Minimum.Millivolts)}-{range.Maximum} {range.Current}"))));
            string pools = string.Concat(together.Pools.Select(pool => $" pool{(pool.Ports.SequenceEqual(together.Ports) ? "" : $" {string.Join('+', pool.Ports)}")}{Word(pool.Voltage)}{Word(pool.Current)}{Word(pool.Power)}"));
            string total = together.Total is null ? "" : $" total {together.Total}";
            yield return $"{At(together.At)} {word} {string.Join('+', together.Ports)}{(split.Length > 0 ? " = " : "")}{split}{pools}{total}";
        }

        if (label.Total is not null)
        {
            yield return $"{At(label.Total.At)} total {label.Total.Power} {label.Total.Scope}";
        }

        if (label.Battery is { } battery)
        {
            string rated = battery.RatedCapacityMilliampereHours is null ? "" : " rated";
            yield return $"{At(battery.At)} battery{Word(battery.CapacityMilliampereHours, " mAh")}{Word(battery.NominalVoltage)}{Word(battery.Energy)}"
                + (battery.SeriesCells is null ? "" : $" {battery.SeriesCells}S{battery.ParallelCells}P")
                + $"{rated}{Word(battery.RatedCapacityMilliampereHours, " mAh")}{Word(battery.RatedVoltage)}{Word(battery.RatedCurrent)}";
        }

        foreach (PrintedPerformance figure in label.Performance)
        {
            yield return $"{At(figure.At)} {figure.Kind} {(figure.Power is { } power ? power : Decimal(figure.PartsPerMillion!.Value / 10) + " %")}";
        }

        foreach (PrintedRemark remark in label.Remarks)
        {
            yield return $"{At(remark.At)} remark {remark.Text}";
        }

        foreach (UnfitSplit unfit in label.UnfitSplits)
        {
            yield return $"{At(unfit.At)} unfit {unfit.Values} values for {string.Join('+', unfit.Ports)}";
        }

        foreach (UnreadSpan unread in label.Unread)
        {
            yield return $"{At(unread.At)} unread {unread.Text}";
        }

        foreach (PrintedRepair repair in label.Repairs)
        {
            yield return $"{At(repair.At)} repaired {repair.Kind.ToString().ToLowerInvariant()} «{repair.Before}» to «{repair.After}»";
        }
    }

    private static string At(Place place) => $"{place.Line}:{place.Column}";

    private static string Decimal(int thousandths) => (thousandths / 1000m).ToString("0.###", CultureInfo.InvariantCulture);

    private static string Word(object? value, string unit = "") => value is null ? "" : $" {value}{unit}";
}
