using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.PdpRules;

/// <summary>What the power rules ask of a source that offers PPS (R3.2v1.1, Table 10.10). Powers in mW, currents in mA.</summary>
public static class PpsRules
{
    private const int CurrentStep = 50;

    /// <summary>The least current of a range that is normative; null for one that is not.</summary>
    /// <param name="progMillivolts">The voltage that the range is named after: 9, 15 or 20 V.</param>
    /// <param name="pdp">The PDP.</param>
    /// <param name="inEprMode">Whether it is offered in EPR mode, in which 20 V gives 100 W (10.2.3.3).</param>
    public static int? MinimumFor(int progMillivolts, int pdp, bool inEprMode = false)
    {
        (int above, int upTo) = progMillivolts switch
        {
            9000 => (15_000, 45_000),
            15000 => (27_000, 60_000),
            20000 => (45_000, int.MaxValue),
            _ => (int.MaxValue, int.MaxValue),
        };

        // The last row of 9 V and 15 V Prog ends below 45 W and 60 W: at these the next range gives 3 A as well.
        if (pdp <= above || pdp >= upTo)
        {
            return null;
        }

        // A source above 100 W may give less than 5 A in SPR mode (10.2.3.3).
        int exact = Math.Min(RoundDown(Math.Min(pdp, PowerRules.SprMaximumMilliwatts), progMillivolts), PowerRules.ConnectorMilliamperes);
        bool threeAmperesAreEnough = progMillivolts < 20000 || (pdp > PowerRules.SprMaximumMilliwatts && !inEprMode);
        return threeAmperesAreEnough ? Math.Min(exact, PowerRules.PlainCableMilliamperes) : exact;
    }

    /// <summary>The most current that a range may have: PDP / V rounded down, 5 A at most (10.2).</summary>
    public static int MaximumFor(int progMillivolts, int pdp) => Math.Min(
        RoundDown(Math.Min(pdp, PowerRules.SprMaximumMilliwatts), progMillivolts), PowerRules.ConnectorMilliamperes);

    /// <summary>The voltage that a range is named after, by the voltage that it ends at; null for no range of the standard.</summary>
    public static int? ProgOf(Voltage end)
    {
        for (int index = 0; index < AdjustableRanges.PpsFrom3V3.Count; index++)
        {
            if (AdjustableRanges.PpsFrom3V3[index].Maximum == end)
            {
                return AdjustableRanges.PpsFrom3V3[index].Nominal.Millivolts;
            }
        }

        return null;
    }

    /// <summary>PDP / V rounded down to 50 mA.</summary>
    public static int RoundDown(int milliwatts, int millivolts) =>
        (int)((long)milliwatts * 1000 / millivolts / CurrentStep * CurrentStep);
}
