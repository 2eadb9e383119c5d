using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Csv;

/// <summary>The numbers of one object, as columns have them. What was not seen, or it does not have, is null.</summary>
internal sealed record OfferedAmounts(string Kind, int? LeastMv, int? MostMv, int? MostMa, int? MostAbove15Ma, long? MostMw)
{
    private const int AvsFrom = 9_000;
    private const int AvsTo15 = 15_000;
    private const int AvsTo20 = 20_000;

    /// <summary>The numbers of an object.</summary>
    public static OfferedAmounts Of(PowerObject offered) => offered.KindCase switch
    {
        PowerObject.KindOneofCase.Fixed => Fixed(offered.Fixed),
        PowerObject.KindOneofCase.Battery => new(
            "battery", Seen(offered.Battery.HasMinVoltageMv, offered.Battery.MinVoltageMv), Seen(offered.Battery.HasMaxVoltageMv, offered.Battery.MaxVoltageMv),
            null, null, Seen(offered.Battery.HasMaxPowerMw, offered.Battery.MaxPowerMw)),
        PowerObject.KindOneofCase.Variable => new(
            "variable", Seen(offered.Variable.HasMinVoltageMv, offered.Variable.MinVoltageMv),
            Seen(offered.Variable.HasMaxVoltageMv, offered.Variable.MaxVoltageMv), Seen(offered.Variable.HasMaxCurrentMa, offered.Variable.MaxCurrentMa), null, null),
        PowerObject.KindOneofCase.Pps => new(
            "PPS", Seen(offered.Pps.HasMinVoltageMv, offered.Pps.MinVoltageMv), Seen(offered.Pps.HasMaxVoltageMv, offered.Pps.MaxVoltageMv),
            Seen(offered.Pps.HasMaxCurrentMa, offered.Pps.MaxCurrentMa), null, null),
        PowerObject.KindOneofCase.SprAvs => new(
            "SPR AVS", AvsFrom, offered.SprAvs.HasMaxCurrent20VMa ? offered.SprAvs.MaxCurrent20VMa > 0 ? AvsTo20 : AvsTo15 : null,
            Seen(offered.SprAvs.HasMaxCurrent15VMa, offered.SprAvs.MaxCurrent15VMa), Seen(offered.SprAvs.HasMaxCurrent20VMa, offered.SprAvs.MaxCurrent20VMa), null),
        PowerObject.KindOneofCase.EprAvs => new(
            "EPR AVS", Seen(offered.EprAvs.HasMinVoltageMv, offered.EprAvs.MinVoltageMv), Seen(offered.EprAvs.HasMaxVoltageMv, offered.EprAvs.MaxVoltageMv),
            null, null, offered.EprAvs.HasPdpW ? offered.EprAvs.PdpW * 1000L : null),
        PowerObject.KindOneofCase.Padding => new("padding", null, null, null, null, null),
        _ => new("reserved", null, null, null, null, null),
    };

    private static OfferedAmounts Fixed(FixedSupply supply)
    {
        (int? volts, int? amperes) = (Seen(supply.HasVoltageMv, supply.VoltageMv), Seen(supply.HasMaxCurrentMa, supply.MaxCurrentMa));
        return new OfferedAmounts("fixed", volts, volts, amperes, null, Amounts.Milliwatts(volts, amperes));
    }

    private static int? Seen(bool has, int value) => has ? value : null;
}
