using System.Globalization;
using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Printed inputs, combinations and batteries in one line each.</summary>
internal static class PrintedWords
{
    public static string Input(PrintedInput input)
    {
        int? minimum = input.HasMinVoltageMv ? input.MinVoltageMv : null;
        int? maximum = input.HasMaxVoltageMv ? input.MaxVoltageMv : null;
        return Supply(
            minimum, maximum, input.Alternating ? "AC" : "DC", input.FrequencyHz, input.HasCurrentMa ? input.CurrentMa : null,
            input.HasPowerMw ? input.PowerMw : null);
    }

    public static string Alternating(PrintedAlternating mains) => Supply(
        mains.MinVoltageMv, mains.MaxVoltageMv, "AC", mains.FrequencyHz, mains.HasCurrentMa ? mains.CurrentMa : null,
        mains.HasPowerMw ? mains.PowerMw : null);

    public static string Performance(PrintedPerformance figure) => figure.HasPowerMw
        ? Amounts.Watts(figure.PowerMw)
        : string.Create(CultureInfo.InvariantCulture, $"{figure.PartsPerMillion / 10_000m:0.###} %");

    private static string Supply(int? minimum, int? maximum, string nature, RepeatedField<int> hertz, int? current, int? power)
    {
        List<string> parts = [$"{(minimum == maximum ? Amounts.Volts(maximum) : Amounts.VoltRange(minimum, maximum))} {nature}"];
        if (hertz.Count > 0)
        {
            parts.Add(string.Join("/", hertz) + " Hz");
        }

        if (current is not null)
        {
            parts.Add(Amounts.Amperes(current));
        }

        if (power is not null)
        {
            parts.Add(Amounts.Watts(power));
        }

        return string.Join(", ", parts);
    }

    public static string Combination(PrintedCombination combination) => string.Join(
        ", ", combination.Split.Select(Share).Concat(combination.Pools.Select(Pool)));

    public static string Battery(PrintedBattery battery)
    {
        List<string> parts = [];
        Add(battery.HasCapacityMah, Charge(battery.CapacityMah));
        Add(battery.HasNominalVoltageMv, Amounts.Volts(battery.NominalVoltageMv));
        Add(battery.HasEnergyMwh, Amounts.WattHours(battery.EnergyMwh));
        Add(battery.HasSeriesCells, string.Create(CultureInfo.InvariantCulture, $"{battery.SeriesCells}S{battery.ParallelCells}P"));
        Add(battery.HasRatedCapacityMah, $"rated {Charge(battery.RatedCapacityMah)}");
        Add(battery.HasRatedVoltageMv, $"at {Amounts.Volts(battery.RatedVoltageMv)}");
        Add(battery.HasRatedCurrentMa, $"at {Amounts.Amperes(battery.RatedCurrentMa)}");
        return string.Join(", ", parts);

        void Add(bool known, string part)
        {
            if (known)
            {
                parts.Add(part);
            }
        }
    }

    private static string Charge(int milliampereHours) =>
        string.Create(CultureInfo.InvariantCulture, $"{milliampereHours} mAh");

    private static string Share(PrintedShare share)
    {
        IEnumerable<string> amounts = share.Fixed
            .Select(mode => $"{Amounts.Volts(mode.VoltageMv)} {Amounts.Amperes(mode.CurrentMa)}")
            .Concat(share.Ranges.Select(range => $"{Amounts.VoltRange(range.MinVoltageMv, range.MaxVoltageMv)} {Amounts.Amperes(range.CurrentMa)}"))
            .Concat(share.HasPowerMw ? [Amounts.Watts(share.PowerMw)] : []);
        return $"{share.Port} {string.Join(" or ", amounts)}".TrimEnd();
    }

    private static string Pool(PrintedPool pool)
    {
        List<string> parts = [string.Join(" + ", pool.Ports), "share"];
        if (pool.HasVoltageMv)
        {
            parts.Add(Amounts.Volts(pool.VoltageMv));
        }

        if (pool.HasCurrentMa)
        {
            parts.Add(Amounts.Amperes(pool.CurrentMa));
        }

        if (pool.HasPowerMw)
        {
            parts.Add(Amounts.Watts(pool.PowerMw));
        }

        return string.Join(' ', parts);
    }
}
