using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>What one object allows, in volts and amperes for a drawing.</summary>
/// <param name="Kind">"fixed", "PPS", "AVS", "variable" or "battery".</param>
/// <param name="Name">A word beside it.</param>
/// <param name="Outline">The largest current over the voltage, from left to right.</param>
internal sealed record Envelope(string Kind, string Name, (decimal Volts, decimal Amperes)[] Outline)
{
    private const int CurvePoints = 24;

    // No cable carries more (USB Type-C).
    private const decimal MaxCurrent = 5m;

    /// <summary>It covers a range of voltages.</summary>
    public bool IsArea => Outline.Length > 1;

    /// <summary>Lowest voltage.</summary>
    public decimal FromVolts => Outline[0].Volts;

    /// <summary>Highest voltage.</summary>
    public decimal ToVolts => Outline[^1].Volts;

    /// <summary>Largest current.</summary>
    public decimal MostAmperes => Outline.Max(static point => point.Amperes);

    /// <summary>Null for what has nothing to draw, or was not seen whole.</summary>
    public static Envelope? Of(PowerObject offered, int? pdpMilliwatts) => offered.KindCase switch
    {
        PowerObject.KindOneofCase.Fixed when offered.Fixed is { HasVoltageMv: true, HasMaxCurrentMa: true, VoltageMv: > 0 } supply =>
            new("fixed", $"{Amounts.Volts(supply.VoltageMv)} {Amounts.Amperes(supply.MaxCurrentMa)}", [(supply.VoltageMv / 1000m, supply.MaxCurrentMa / 1000m)]),
        PowerObject.KindOneofCase.Pps when offered.Pps is { HasMinVoltageMv: true, HasMaxVoltageMv: true, HasMaxCurrentMa: true } pps && pps.MaxVoltageMv > pps.MinVoltageMv =>
            new("PPS", "PPS", Flat(pps.MinVoltageMv, pps.MaxVoltageMv, pps.MaxCurrentMa, pps is { HasPowerLimited: true, PowerLimited: true } ? pdpMilliwatts : null)),
        PowerObject.KindOneofCase.Variable when offered.Variable is { HasMinVoltageMv: true, HasMaxVoltageMv: true, HasMaxCurrentMa: true } supply
            && supply.MaxVoltageMv > supply.MinVoltageMv => new("variable", "variable", Flat(supply.MinVoltageMv, supply.MaxVoltageMv, supply.MaxCurrentMa, null)),
        PowerObject.KindOneofCase.Battery when offered.Battery is { HasMinVoltageMv: true, HasMaxVoltageMv: true, HasMaxPowerMw: true, MinVoltageMv: > 0 } supply
            && supply.MaxVoltageMv > supply.MinVoltageMv => new("battery", "battery", Limited(supply.MinVoltageMv, supply.MaxVoltageMv, null, supply.MaxPowerMw)),
        PowerObject.KindOneofCase.SprAvs when offered.SprAvs is { HasMaxCurrent15VMa: true, HasMaxCurrent20VMa: true } avs => new("AVS", "SPR AVS", Spr(avs)),
        PowerObject.KindOneofCase.EprAvs when offered.EprAvs is { HasMinVoltageMv: true, HasMaxVoltageMv: true, HasPdpW: true, MinVoltageMv: > 0 } avs
            && avs.MaxVoltageMv > avs.MinVoltageMv => new("AVS", "EPR AVS", Limited(avs.MinVoltageMv, avs.MaxVoltageMv, MaxCurrent, avs.PdpW * 1000L)),
        _ => null,
    };

    private static (decimal, decimal)[] Flat(int fromMv, int toMv, int milliamperes, int? milliwatts) => milliwatts is { } limit
        ? Limited(fromMv, toMv, milliamperes / 1000m, limit)
        : [(fromMv / 1000m, milliamperes / 1000m), (toMv / 1000m, milliamperes / 1000m)];

    private static (decimal, decimal)[] Limited(int fromMv, int toMv, decimal? amperes, long milliwatts) =>
    [
        .. Enumerable.Range(0, CurvePoints + 1).Select(at => (fromMv + ((toMv - fromMv) * (decimal)at / CurvePoints)) / 1000m)
            .Select(volts => (volts, volts > 0 ? Math.Min(amperes ?? decimal.MaxValue, milliwatts / 1000m / volts) : amperes ?? 0)),
    ];

    // 9 V to 15 V, and from there to 20 V (R3.2v1.1, 6.4.1.2.4.2).
    private static (decimal, decimal)[] Spr(SprAvsSupply avs)
    {
        (decimal low, decimal high) = (avs.MaxCurrent15VMa / 1000m, avs.MaxCurrent20VMa / 1000m);
        return high > 0 ? [(9, low), (15, low), (15, high), (20, high)] : [(9, low), (15, low)];
    }
}
