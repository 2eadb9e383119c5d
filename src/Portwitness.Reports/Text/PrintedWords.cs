using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>Printed inputs, combinations and batteries in one line each.</summary>
internal static class PrintedWords
{
    public static string Input(PrintedInput input)
    {
        List<string> parts = [];
        int? minimum = input.HasMinVoltageMv ? input.MinVoltageMv : null;
        int? maximum = input.HasMaxVoltageMv ? input.MaxVoltageMv : null;
        parts.Add((minimum == maximum ? Amounts.Volts(maximum) : Amounts.VoltRange(minimum, maximum)) + (input.Alternating ? " AC" : " DC"));
        if (input.FrequencyHz.Count > 0)
        {
            parts.Add(string.Join("/", input.FrequencyHz) + " Hz");
        }

        if (input.HasCurrentMa)
        {
            parts.Add(Amounts.Amperes(input.CurrentMa));
        }

        if (input.HasPowerMw)
        {
            parts.Add(Amounts.Watts(input.PowerMw));
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
