using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Printed;

/// <summary>Which formula of the tables holds for an external supply.</summary>
public enum SupplyKind
{
    /// <summary>One output voltage at a time.</summary>
    Basic,

    /// <summary>Below 6 V and at least 0.55 A.</summary>
    LowVoltage,

    /// <summary>Several output voltages at once.</summary>
    MultipleVoltage,
}

/// <summary>
/// Limits of external supplies: (EU) 2019/1782 Annex II up to 250 W, and 10 CFR 430.32(w), which has the same formulae and goes on
/// above. Efficiencies are fractions.
/// </summary>
/// <param name="Power">Output power on the plate.</param>
/// <param name="Kinds">The kinds that the label leaves open.</param>
public sealed record SupplyLimits(Power Power, IReadOnlyList<SupplyKind> Kinds)
{
    private const int Watts49 = 49_000;
    private const int Watts250 = 250_000;

    /// <summary>What limits a label's product; null when it is no external supply, or its power is not printed.</summary>
    public static SupplyLimits? Of(Label label)
    {
        if (label.Battery is not null || !label.Inputs.Any(static input => input.Alternating)
            || label.Outputs.Any(static output => !output.Alternating.IsEmpty))
        {
            return null;
        }

        long? power = label.Total?.Power.Milliwatts ?? (label.Outputs is [{ } only] ? PrintedPowers.Of(only) : null);
        if (power is null or > int.MaxValue or 0)
        {
            return null;
        }

        bool hasLow = label.Outputs.Any(static output =>
            output.Fixed.Any(static mode => mode.Voltage.Millivolts < 6000 && mode.Current.Milliamperes >= 550));
        bool hasHigh = label.Outputs.Any(static output =>
            output.Fixed.IsEmpty || output.Fixed.Any(static mode => mode.Voltage.Millivolts >= 6000));
        List<SupplyKind> kinds = [];
        Add(SupplyKind.LowVoltage, hasLow);
        Add(SupplyKind.Basic, hasHigh || !hasLow);
        Add(SupplyKind.MultipleVoltage, label.Outputs.Length > 1);
        return new SupplyLimits(Power.FromMilliwatts((int)power.Value), kinds);

        void Add(SupplyKind kind, bool isOpen)
        {
            if (isOpen)
            {
                kinds.Add(kind);
            }
        }
    }

    /// <summary>The least and the largest of the average efficiencies that may be asked for.</summary>
    public (double Least, double Most) Efficiency() =>
        (Kinds.Min(kind => Efficiency(kind, Power)), Kinds.Max(kind => Efficiency(kind, Power)));

    /// <summary>The least and the largest of the no-load powers, in mW, that may be allowed.</summary>
    public (int Least, int Most) NoLoad() => (Kinds.Min(kind => NoLoad(kind, Power)), Kinds.Max(kind => NoLoad(kind, Power)));

    /// <summary>The least average active efficiency.</summary>
    public static double Efficiency(SupplyKind kind, Power power)
    {
        double watts = power.Milliwatts / 1000d;
        return kind switch
        {
            SupplyKind.MultipleVoltage => watts <= 1 ? (0.497 * watts) + 0.067
                : power.Milliwatts <= Watts49 ? (0.075 * Math.Log(watts)) + 0.561 : 0.860,
            _ when power.Milliwatts > Watts250 => 0.875,
            SupplyKind.LowVoltage => watts <= 1 ? (0.517 * watts) + 0.087
                : power.Milliwatts <= Watts49 ? (0.0834 * Math.Log(watts)) - (0.0014 * watts) + 0.609 : 0.870,
            _ => watts <= 1 ? (0.5 * watts) + 0.16
                : power.Milliwatts <= Watts49 ? (0.071 * Math.Log(watts)) - (0.0014 * watts) + 0.67 : 0.880,
        };
    }

    /// <summary>The largest no-load power of an AC-DC supply, in mW; where the EU and the USA differ, the larger one.</summary>
    public static int NoLoad(SupplyKind kind, Power power) => kind switch
    {
        SupplyKind.MultipleVoltage => 300,
        _ when power.Milliwatts <= Watts49 => 100,
        _ when power.Milliwatts <= Watts250 => 210,
        _ => 500,
    };

    /// <summary>A fraction, as the tables are rounded.</summary>
    public static Quantity Percent(double fraction) => new((long)Math.Round(fraction * 1_000_000), QuantityUnit.PartsPerMillionOfLimit);
}
