using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;

namespace Portwitness.Product.Printed;

/// <summary>Something that two labels of one product print differently.</summary>
/// <param name="Port">The port; empty for the product.</param>
/// <param name="First">What the first prints.</param>
/// <param name="At">Where.</param>
/// <param name="Second">What the second prints.</param>
/// <param name="OtherAt">Where.</param>
/// <param name="IsSure">Whether both were read without doubt there, and cannot both be right.</param>
public sealed record LabelDifference(string Port, Phrase First, Place At, Phrase Second, Place OtherAt, bool IsSure);

/// <summary>
/// What two labels of one product print differently: the same port, arrangement or figure with another value, or one list with a voltage
/// that the other list lacks. What one of them leaves out altogether contradicts nothing.
/// </summary>
public sealed class LabelDifferences
{
    // "2.2A" is 2.22 A in short.
    private const int MaxRoundingMilliamperes = 50;

    private readonly Label _first;
    private readonly Label _second;
    private readonly List<LabelDifference> _found = [];

    private LabelDifferences(Label first, Label second) => (_first, _second) = (first, second);

    /// <summary>The differences, in the order of the first label.</summary>
    public static ImmutableArray<LabelDifference> Of(Label first, Label second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        LabelDifferences differences = new(first, second);
        differences.CompareInputs();
        differences.ComparePorts();
        differences.CompareCombinations();
        differences.CompareWholes();
        return [.. differences._found.OrderBy(static one => one.At.Line).ThenBy(static one => one.At.Column)];
    }

    private void ComparePorts()
    {
        foreach (PrintedOutput output in _first.Outputs)
        {
            if (OtherOf(output) is { } other)
            {
                CompareModes(output, other);
                CompareRanges(output, other);
                CompareMaxima(output, other);
            }
            else if (NamesItsPorts(_first) && NamesItsPorts(_second))
            {
                Add(output.Port, $"{output.Port} is named", output.At, NamesOf(_second), _second.Outputs[0].At, isSure: false);
            }
        }

        bool areNamed = NamesItsPorts(_first) && NamesItsPorts(_second);
        foreach (PrintedOutput output in _second.Outputs.Where(output => areNamed && _first.FindOutput(output.Port) is null))
        {
            Add(output.Port, NamesOf(_first), _first.Outputs[0].At, $"{output.Port} is named", output.At, isSure: false);
        }
    }

    // The only output of a label that names none is the only one of the other.
    private PrintedOutput? OtherOf(PrintedOutput output)
    {
        bool isOnly = _first.Outputs.Length == 1 && _second.Outputs is [var only] && (output.Port == PortNames.Unnamed || only.Port == PortNames.Unnamed);
        return isOnly ? _second.Outputs[0] : _second.FindOutput(output.Port);
    }

    private void CompareModes(PrintedOutput output, PrintedOutput other)
    {
        bool isWhole = !output.Incomplete && !other.Incomplete;
        foreach (IGrouping<(int, string), PrintedFixed> modes in output.Fixed.GroupBy(KeyOf))
        {
            PrintedFixed most = Most(modes);
            PrintedFixed? same = other.Fixed.Where(mode => KeyOf(mode) == modes.Key).MaxBy(static mode => mode.Current);
            if (same is not null && Math.Abs(most.Current.Milliamperes - same.Current.Milliamperes) > Rounding(most, same))
            {
                Add(output.Port, Words(output.Port, most), most.At, Words(other.Port, same), same.At);
            }
            else if (same is null && other.Fixed.Any(mode => KeyOf(mode).Protocol == modes.Key.Item2))
            {
                Add(output.Port, Words(output.Port, most), most.At, $"{other.Port} has no {most.Voltage}", other.Fixed[0].At, isWhole);
            }
        }

        foreach (PrintedFixed mode in other.Fixed.Where(mode => output.Fixed.All(one => KeyOf(one) != KeyOf(mode))
            && output.Fixed.Any(one => KeyOf(one).Protocol == KeyOf(mode).Protocol)).DistinctBy(KeyOf))
        {
            Add(output.Port, $"{output.Port} has no {mode.Voltage}", output.Fixed[0].At, Words(other.Port, mode), mode.At, isWhole);
        }
    }

    private void CompareRanges(PrintedOutput output, PrintedOutput other)
    {
        foreach (PrintedRange range in output.Ranges)
        {
            PrintedRange[] alike = [.. other.Ranges.Where(one => SameKind(one.Kind, range.Kind) && one.Minimum < range.Maximum && one.Maximum > range.Minimum)];
            bool isSame = alike.Any(one => one.Minimum == range.Minimum && one.Maximum == range.Maximum && one.Current == range.Current);
            if (alike.Length > 0 && !isSame && !alike.Any(one => output.Ranges.Any(own => own != range && own.Maximum == one.Maximum && own.Minimum == one.Minimum)))
            {
                Add(output.Port, Words(output.Port, range), range.At, Words(other.Port, alike[0]), alike[0].At);
            }
        }
    }

    // A maximum beside a list contradicts it where the list goes beyond it.
    private void CompareMaxima(PrintedOutput output, PrintedOutput other)
    {
        if (output.Maximum is { } first && other.Maximum is { } second)
        {
            AddPowers(output.Port, first.Power.Milliwatts, first.At, second.Power.Milliwatts, second.At, "gives up to");
            return;
        }

        if (output.Maximum is { } most && Beyond(other, most) is { } mode)
        {
            Add(output.Port, $"{output.Port} gives up to {most.Power}", most.At, Words(other.Port, mode), mode.At);
        }
        else if (other.Maximum is { } limit && Beyond(output, limit) is { } own)
        {
            Add(output.Port, Words(output.Port, own), own.At, $"{other.Port} gives up to {limit.Power}", limit.At);
        }
    }

    private static PrintedFixed? Beyond(PrintedOutput output, PrintedMaximum maximum) => PrintedPowers.Largest(output.Fixed) is { } largest
        && largest.Milliwatts > maximum.Power.Milliwatts + PrintedPowers.Tolerance(maximum.Power.Milliwatts) ? largest.Mode : null;

    private void CompareCombinations()
    {
        foreach (PrintedCombination together in _first.Combinations)
        {
            HashSet<string> ports = [.. together.Ports.Select(PortNames.Key)];
            PrintedCombination? other = _second.Combinations.FirstOrDefault(one => ports.SetEquals(one.Ports.Select(PortNames.Key)));
            if (other is null)
            {
                continue;
            }

            foreach (PrintedShare share in together.Split.Where(static share => share.Power is not null))
            {
                if (other.Split.FirstOrDefault(one => PortNames.Same(one.Port, share.Port))?.Power is { } power)
                {
                    AddPowers(
                        share.Port, share.Power!.Value.Milliwatts, together.At, power.Milliwatts, other.At, $"in {string.Join('+', together.Ports)} gives");
                }
            }

            if ((together.Total?.Milliwatts ?? PrintedPowers.Sum(together)) is { } sum && (other.Total?.Milliwatts ?? PrintedPowers.Sum(other)) is { } otherSum
                && (together.Split.IsEmpty || other.Split.IsEmpty))
            {
                AddPowers("", sum, together.At, otherSum, other.At, $"{string.Join('+', together.Ports)} give");
            }
        }
    }

    private void CompareWholes()
    {
        if (_first.Total is { } total && _second.Total is { } otherTotal)
        {
            AddPowers("", total.Power.Milliwatts, total.At, otherTotal.Power.Milliwatts, otherTotal.At, "the total is");
        }

        if (_first.Battery is not { } battery || _second.Battery is not { } other)
        {
            return;
        }

        if (battery.Energy is { } energy && other.Energy is { } otherEnergy
            && Math.Abs(energy.MilliwattHours - otherEnergy.MilliwattHours) > Math.Max(battery.EnergyStep?.MilliwattHours ?? 0, other.EnergyStep?.MilliwattHours ?? 0) / 2)
        {
            Add("", $"the cells hold {energy}", battery.EnergyAt ?? battery.At, $"they hold {otherEnergy}", other.EnergyAt ?? other.At);
        }

        AddCharges("the cells hold", battery.CapacityMilliampereHours, battery.At, other.CapacityMilliampereHours, other.At);
        if (battery.RatedVoltage == other.RatedVoltage)
        {
            AddCharges("rated are", battery.RatedCapacityMilliampereHours, battery.RatedAt ?? battery.At, other.RatedCapacityMilliampereHours, other.RatedAt ?? other.At);
        }
    }

    private void CompareInputs()
    {
        foreach (PrintedInput input in _first.Inputs)
        {
            PrintedInput? other = _second.Inputs.FirstOrDefault(one => one.Alternating == input.Alternating
                && (one.Port is null ? input.Port is null : PortNames.Same(one.Port, input.Port))
                && one.MinimumVoltage == input.MinimumVoltage && one.MaximumVoltage == input.MaximumVoltage);
            bool isOther = other is { Current: { } current } && input.Current is { } own && current != own
                && !_second.Inputs.Any(one => one.Alternating == input.Alternating && one.MaximumVoltage == input.MaximumVoltage && one.Current == own)
                && !_first.Inputs.Any(one => one.Alternating == input.Alternating && one.MaximumVoltage == input.MaximumVoltage && one.Current == current);
            if (isOther)
            {
                Add(input.Port ?? "", $"the input takes {input.MaximumVoltage} {input.Current}", input.At, $"it takes {other!.MaximumVoltage} {other.Current}", other.At);
            }
        }
    }

    private void AddCharges(string what, int? milliampereHours, Place at, int? other, Place otherAt)
    {
        if (milliampereHours is { } own && other is { } otherOwn && own != otherOwn)
        {
            Add("", $"{what} {PrintedPowers.MilliampereHours(own)}", at, $"{what} {PrintedPowers.MilliampereHours(otherOwn)}", otherAt);
        }
    }

    private void AddPowers(string port, long milliwatts, Place at, long other, Place otherAt, string does)
    {
        if (Math.Abs(milliwatts - other) > PrintedPowers.Tolerance(Math.Min(milliwatts, other)))
        {
            string what = $"{port} {does}".Trim();
            Add(port, $"{what} {PrintedPowers.Watts(milliwatts)}", at, $"{what} {PrintedPowers.Watts(other)}", otherAt);
        }
    }

    private void Add(string port, Phrase first, Place at, Phrase second, Place otherAt, bool isSure = true) => _found.Add(new(
        port, first, at, second, otherAt, isSure && !_first.IsDoubtful(at.Line) && !_second.IsDoubtful(otherAt.Line)));

    private static bool NamesItsPorts(Label label) => !label.Outputs.IsEmpty && label.Outputs.All(static output => output.Port != PortNames.Unnamed);

    private static Phrase NamesOf(Label label) => $"only {Phrase.JoinNames(", ", label.Outputs.Select(static output => output.Port))} are";

    private static (int Millivolts, string Protocol) KeyOf(PrintedFixed mode) =>
        (mode.Voltage.Millivolts, Protocols.IsPowerDelivery(mode.Protocol) ? "" : mode.Protocol!.ToUpperInvariant());

    private static bool SameKind(string? one, string? other) =>
        one is null || other is null || string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static PrintedFixed Most(IEnumerable<PrintedFixed> modes) => modes.MaxBy(static mode => mode.Current)!;

    private static int Rounding(PrintedFixed mode, PrintedFixed other)
    {
        int step = Math.Max(mode.CurrentStep.Milliamperes, other.CurrentStep.Milliamperes);
        return step / 2 <= MaxRoundingMilliamperes ? step / 2 : 0;
    }

    private static Phrase Words(string port, PrintedFixed mode) => $"{port} gives {mode.Voltage} {mode.Current}";

    private static Phrase Words(string port, PrintedRange range) => $"{port} gives {range.Minimum} to {range.Maximum} {range.Current}";
}
