using System.Globalization;

namespace Portwitness.Labels.Tests;

/// <summary>
/// What is read of a label, line by line, as the labels of Data/Blind say it: the statements of each line without their places in it.
/// </summary>
public static class LineReading
{
    /// <summary>The statements that were read, each with its line in front.</summary>
    public static IEnumerable<string> Statements(Label label)
    {
        foreach (PrintedInput input in label.Inputs)
        {
            string volts = Volts(input.MinimumVoltage.Millivolts, input.MaximumVoltage.Millivolts);
            string hertz = input.FrequenciesHz.IsEmpty ? "" : $" {string.Join('/', input.FrequenciesHz)} Hz";
            yield return $"{input.At.Line} input{Word(Name(input.Port))}{Word(input.Protocol)}{(input.Alternating ? " AC" : "")} {volts}{Word(input.Current)}{hertz}";
        }

        foreach (PrintedInputMaximum maximum in label.InputMaxima)
        {
            yield return $"{maximum.At.Line} input{Word(Name(maximum.Port))} max {maximum.Power}";
        }

        foreach (PrintedOutput output in label.Outputs)
        {
            string port = output.IsCaptiveCable ? "Cable" : Name(output.Port)!;
            foreach (PrintedFixed mode in output.Fixed)
            {
                yield return $"{mode.At.Line} {port}{Word(mode.Protocol)} {mode.Voltage} {mode.Current}";
            }

            foreach (PrintedRange range in output.Ranges)
            {
                yield return $"{range.At.Line} {port} {range.Kind ?? "range"} {Volts(range.Minimum.Millivolts, range.Maximum.Millivolts)} {range.Current}";
            }

            foreach (PrintedAlternating mains in output.Alternating)
            {
                string hertz = mains.FrequenciesHz.IsEmpty ? "" : $" {string.Join('/', mains.FrequenciesHz)} Hz";
                yield return $"{mains.At.Line} {port} AC {Volts(mains.Minimum.Millivolts, mains.Maximum.Millivolts)}{Word(mains.Current)}{Word(mains.Power)}{hertz}";
            }

            if (output.Maximum is { } maximum)
            {
                yield return $"{maximum.At.Line} {port} max {maximum.Power}";
            }

            foreach (PrintedMaximum one in output.ProtocolMaxima)
            {
                yield return $"{one.At.Line} {port} {one.Protocol} max {one.Power}";
            }
        }

        foreach (PrintedPad pad in label.Pads)
        {
            yield return $"{pad.At.Line} pad {Name(pad.Name)} {string.Join(" or ", pad.Powers)}";
        }

        foreach (PrintedCombination together in label.Combinations)
        {
            yield return $"{together.At.Line} {Describe(together)}";
        }

        foreach (AmbiguousCombination either in label.Ambiguous)
        {
            yield return $"{either.At.Line} either {string.Join(" | ", either.Readings.Select(reading => Describe(reading)["together ".Length..]))}";
        }

        if (label.Total is { } total)
        {
            yield return $"{total.At.Line} total {total.Power}";
        }

        foreach (PrintedBattery battery in label.Battery?.Statements ?? [])
        {
            if (battery.RatedCapacityMilliampereHours is { } rated)
            {
                yield return $"{battery.At.Line} rated {rated} mAh{Word(battery.RatedVoltage)}{Word(battery.RatedCurrent)}";
            }
            else
            {
                string cells = battery.SeriesCells is null ? "" : $" {battery.SeriesCells}S{battery.ParallelCells}P";
                string capacity = battery.CapacityMilliampereHours is { } value ? $" {value} mAh" : "";
                yield return $"{battery.At.Line} battery{capacity}{Word(battery.NominalVoltage)}{Word(battery.Energy)}{cells}";
            }
        }

        foreach (PrintedPerformance figure in label.Performance)
        {
            string value = figure.Power is { } power ? power.ToString() : $"{(figure.PartsPerMillion!.Value / 10_000m).ToString("0.###", CultureInfo.InvariantCulture)} %";
            yield return $"{figure.At.Line} {figure.Kind} {value}";
        }
    }

    /// <summary>The lines with words that were not read.</summary>
    public static HashSet<int> UnreadLines(Label label) => [.. label.Unread.Select(static span => span.At.Line)];

    private static string Describe(PrintedCombination together)
    {
        string split = string.Join(", ", together.Split.Select(static share =>
            $"{Name(share.Port)}{Word(share.Power)}{string.Concat(share.Fixed.Select(static mode => $" {mode.Voltage} {mode.Current}"))}"));
        string pools = string.Concat(together.Pools.Select(pool =>
            $" pool{(pool.Ports.SequenceEqual(together.Ports) ? "" : $" {Names(pool.Ports)}")}{Word(pool.Voltage)}{Word(pool.Current)}{Word(pool.Power)}"));
        string total = together.Total is null ? "" : $" total {together.Total}";
        return $"together {Names(together.Ports)}{(split.Length > 0 ? " = " : "")}{split}{pools}{total}";
    }

    private static string Names(IEnumerable<string> ports) => string.Join('+', ports.Select(Name));

    // "Micro-USB" and "Micro" are the same socket; cables and pads have a name in each language.
    private static string? Name(string? port) => port is null ? null
        : port.StartsWith("Micro", StringComparison.OrdinalIgnoreCase) ? "Micro"
        : PortGrammar.IsCable(port) ? "Cable"
        : PortNames.IsPad(port) ? "Wireless" + string.Concat(port.Where(char.IsAsciiDigit)) : port;

    private static string Volts(int minimum, int maximum) => minimum == maximum
        ? $"{Thousandths(minimum)} V" : $"{Thousandths(minimum)}-{Thousandths(maximum)} V";

    private static string Thousandths(int value) => (value / 1000m).ToString("0.###", CultureInfo.InvariantCulture);

    private static string Word(object? value) => value is null ? "" : $" {value}";
}
