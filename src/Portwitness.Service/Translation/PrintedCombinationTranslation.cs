using Portwitness.Labels;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What a label prints for several ports at once.</summary>
internal static class PrintedCombinationTranslation
{
    public static Wire.PrintedCombination ToContract(PrintedCombination combination)
    {
        Wire.PrintedCombination translated = new()
        {
            Line = combination.At.Line,
            Column = combination.At.Column,
            Text = combination.Text,
        };
        translated.Ports.AddRange(combination.Ports);
        translated.Split.AddRange(combination.Split.Select(ToContract));
        translated.Pools.AddRange(combination.Pools.Select(ToContract));
        if (combination.Total is { } total)
        {
            translated.TotalPowerMw = total.Milliwatts;
        }

        return translated;
    }

    public static Wire.AmbiguousCombination ToContract(AmbiguousCombination either)
    {
        Wire.AmbiguousCombination translated = new() { Line = either.At.Line, Column = either.At.Column, Text = either.Text };
        translated.Readings.AddRange(either.Readings.Select(ToContract));
        return translated;
    }

    private static Wire.PrintedShare ToContract(PrintedShare share)
    {
        Wire.PrintedShare translated = new() { Port = share.Port };
        translated.Fixed.AddRange(share.Fixed.Select(PrintedOutputTranslation.ToContract));
        translated.Ranges.AddRange(share.Ranges.Select(PrintedOutputTranslation.ToContract));
        if (share.Power is { } power)
        {
            translated.PowerMw = power.Milliwatts;
        }

        return translated;
    }

    private static Wire.PrintedPool ToContract(PrintedPool pool)
    {
        Wire.PrintedPool translated = new();
        translated.Ports.AddRange(pool.Ports);
        if (pool.Voltage is { } voltage)
        {
            translated.VoltageMv = voltage.Millivolts;
        }

        if (pool.Current is { } current)
        {
            translated.CurrentMa = current.Milliamperes;
        }

        if (pool.Power is { } power)
        {
            translated.PowerMw = power.Milliwatts;
        }

        return translated;
    }
}
