using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS does not go to vSafe0V after a Hard Reset.</summary>
public sealed class VbusNotRemovedByHardReset : VbusRemovalRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-not-removed-by-hard-reset",
        Severity = Severity.Violation,
        Title = "VBUS does not go after a Hard Reset",
        Clause = "R3.2v1.1 Tables 6.68 and 7.23 (tPSHardReset, tSafe0V, vSafe0V)",
        Why = "A Hard Reset takes the voltage away so that both sides begin anew. Where it stays, a device may keep a voltage that it no longer "
            + "expects, or never recover.",
        Evidence = "VBUS at least twice a second after the Hard Reset.",
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - measure 9V 0A
              - hard-reset alone
              - measure 5V 0A every 20ms for 900ms
            """,
            "Nine tenths of a second after the Hard Reset VBUS was always at 5 V."),
        Category = RuleCategory.Vbus,
    };

    private static readonly long LatestSafe0VUs = VbusLimits.PSHardResetMaximumUs + VbusLimits.Safe0VUs;

    /// <inheritdoc/>
    public override VbusHit? Check(VbusRemoval removal)
    {
        // VBUS stays at vSafe0V for tSrcRecover at least: between samples closer than that it cannot have been there unseen.
        if (!removal.IsHardReset || removal.LastHighBefore is not { } last
            || last.TimeUs - removal.StartUs <= LatestSafe0VUs + removal.Instrument.TimeUncertaintyUs
            || removal.LongestGapUs + removal.Instrument.TimeUncertaintyUs >= VbusLimits.SrcRecoverSprMinimumUs)
        {
            return null;
        }

        return SegmentDoubts.OfEdition(removal.Editions).ToHit(
            last.TimeUs,
            $"{RunText.Time(last.TimeUs - removal.StartUs)} after the Hard Reset VBUS was {Voltage.FromMillivolts(last.Millivolts)} and had not been at vSafe0V; "
                + $"{removal.Instrument.Text(last.Millivolts)}.",
            $"at most {Electrical.Safe0VMaximum} within {RunText.Time(LatestSafe0VUs)}",
            $"{Voltage.FromMillivolts(last.Millivolts)} after {RunText.Time(last.TimeUs - removal.StartUs)}");
    }
}
