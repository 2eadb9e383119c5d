using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;

namespace Portwitness.Product.Printed;

/// <summary>Powers in mW and energies in mWh that printed values come to; wide enough for any label.</summary>
internal static class PrintedPowers
{
    /// <summary>What a printed power may be off by its rounding.</summary>
    public static long Tolerance(long milliwatts) => PowerRules.Rounding(milliwatts);

    /// <summary>The mode with the most power.</summary>
    public static (PrintedFixed Mode, long Milliwatts)? Largest(IEnumerable<PrintedFixed> modes)
    {
        (PrintedFixed, long Milliwatts)? largest = null;
        foreach (PrintedFixed mode in modes)
        {
            long power = (mode.Voltage * mode.Current).Milliwatts;
            largest = power > (largest?.Milliwatts ?? 0) ? (mode, power) : largest;
        }

        return largest;
    }

    /// <summary>A range's largest voltage times its current.</summary>
    public static long Corner(PrintedRange range) => (range.Maximum * range.Current).Milliwatts;

    /// <summary>A port's printed power: its maximum, or else its largest mode.</summary>
    public static long? Of(PrintedOutput output) => output.Maximum?.Power.Milliwatts ?? Largest(output.Fixed)?.Milliwatts;

    /// <summary>How a port's power is known: "printed with 65 W", or "rated "20V⎓3A", which is 60 W". Empty when it is not.</summary>
    public static Phrase Words(PrintedOutput output) => output.Maximum is { } maximum ? Phrase.Of($"printed with {maximum.Power}")
        : Largest(output.Fixed) is { } largest ? Phrase.Of($"rated \"{largest.Mode.Text}\", which is {Watts(largest.Milliwatts)}") : Phrase.Empty;

    /// <summary>What the ports of a combination give at once; null when it is not printed for all of them.</summary>
    public static long? Sum(PrintedCombination combination)
    {
        long sum = 0;
        int counted = 0;
        foreach (PrintedShare share in combination.Split)
        {
            sum += share.Power?.Milliwatts ?? Largest(share.Fixed)?.Milliwatts ?? 0;
            counted += share.Power is null && share.Fixed.IsEmpty ? 0 : 1;
        }

        foreach (PrintedPool pool in combination.Pools)
        {
            sum += pool.Power?.Milliwatts ?? 0;
            counted += pool.Power is null ? 0 : pool.Ports.Length;
        }

        return counted == combination.Ports.Length ? sum : null;
    }

    /// <summary>
    /// Whether a printed total is that of ports in use together: it is less than a port alone, and a printed combination comes to it.
    /// </summary>
    public static bool IsOfPortsTogether(Label label, PrintedTotal total)
    {
        long printed = total.Power.Milliwatts;
        return label.Outputs.Any(output => Of(output) > printed + Tolerance(printed))
            && label.Combinations.Any(combination => (Sum(combination) ?? combination.Total?.Milliwatts) is { } sum
                && Math.Abs(sum - printed) <= Tolerance(printed));
    }

    /// <summary>Whether a port can have a connector that USB PD works on: "A" and "Micro" ports have none.</summary>
    public static bool MayBePd(string port) =>
        !port.StartsWith("A", StringComparison.OrdinalIgnoreCase) && !port.StartsWith("Micro", StringComparison.OrdinalIgnoreCase);

    public static Quantity Watts(long milliwatts) => new(milliwatts, QuantityUnit.Milliwatts);

    public static Quantity MilliampereHours(long milliampereHours) => new(milliampereHours, QuantityUnit.MilliampereHours);

    public static Quantity WattHours(long milliwattHours) => new(milliwattHours, QuantityUnit.MilliwattHours);
}
