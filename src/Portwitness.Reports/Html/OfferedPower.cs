using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>The power of a list: what its objects offer, and the PD power where that is something else.</summary>
/// <param name="Milliwatts">What is offered; null when no object shows it.</param>
/// <param name="PdpMilliwatts">What the port declares or its label prints; null without it, and where it is what is offered.</param>
internal sealed record OfferedPower(int? Milliwatts, int? PdpMilliwatts)
{
    // 9 V 2.22 A are 19.98 W of a source of 20 W: currents are coded in steps of 10 mA.
    private const int RoundingMilliwatts = 1_000;

    /// <summary>From a list and what was learned of its PD power.</summary>
    public static OfferedPower Of(Advertisement offered)
    {
        int? pdp = offered.HasPdpMw ? offered.PdpMw : null;
        int? largest = (int?)offered.Objects.Max(Largest);
        return largest is null || (pdp is not null && Math.Abs(pdp.Value - largest.Value) <= RoundingMilliwatts)
            ? new OfferedPower(pdp, null)
            : new OfferedPower(largest, pdp);
    }

    private static long? Largest(PowerObject offered) => offered.KindCase switch
    {
        PowerObject.KindOneofCase.Fixed when offered.Fixed is { HasVoltageMv: true, HasMaxCurrentMa: true } supply =>
            Amounts.Milliwatts(supply.VoltageMv, supply.MaxCurrentMa),
        PowerObject.KindOneofCase.Battery when offered.Battery.HasMaxPowerMw => offered.Battery.MaxPowerMw,
        PowerObject.KindOneofCase.EprAvs when offered.EprAvs.HasPdpW => offered.EprAvs.PdpW * 1000L,
        _ => null,
    };
}
