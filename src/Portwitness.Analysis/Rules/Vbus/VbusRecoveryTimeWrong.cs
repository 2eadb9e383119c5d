using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>After a Hard Reset VBUS comes back too soon or too late.</summary>
public sealed class VbusRecoveryTimeWrong : VbusRemovalRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-recovery-time-wrong",
        Severity = Severity.Violation,
        Title = "VBUS comes back at the wrong time",
        Clause = "R3.2v1.1 Tables 6.68 and 7.23 (tSrcRecover, tSrcTurnOn)",
        Why = "After a Hard Reset a device has a time to fall back to its beginning. VBUS that returns sooner finds it unprepared; VBUS that "
            + "returns late makes it think that it was unplugged.",
        Evidence = "VBUS every few milliseconds after the Hard Reset, and whether EPR mode was in force; too late only with attach and detach as events.",
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
              - pause 100ms
              - measure 0V 0A every 10ms for 200ms
              - measure 5V 0A
            """,
            "VBUS comes back after less than 300 ms; 660 ms are the least."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusRemoval removal)
    {
        if (!removal.IsHardReset || removal.FirstLowUs is not { } firstLow || removal.LastLowUs is not { } lastLow)
        {
            return null;
        }

        // tSrcRecover ends where VBUS is turned on; on its way to vSafe5V it may be low for tSrcTurnOn more.
        Sample? back = removal.Back;
        long atMost = back is { } came
            ? came.TimeUs - (removal.LastHighBefore?.TimeUs ?? removal.StartUs) + removal.Instrument.TimeUncertaintyUs
            : long.MaxValue;
        long atLeast = lastLow - firstLow - removal.Instrument.TimeUncertaintyUs;
        (long soonest, long latest) = (
            removal.InEprMode == true ? VbusLimits.SrcRecoverEprMinimumUs : VbusLimits.SrcRecoverSprMinimumUs,
            removal.InEprMode == false ? VbusLimits.SrcRecoverSprMaximumUs : VbusLimits.SrcRecoverEprMaximumUs);
        long latestLow = latest + VbusLimits.SrcTurnOnUs;
        if (atMost >= soonest && atLeast <= latestLow)
        {
            return null;
        }

        Phrase seen = atMost < soonest ? Phrase.Of($"at most {RunText.Time(atMost)}") : $"at least {RunText.Time(atLeast)}";
        Doubts doubts = SegmentDoubts.OfEdition(removal.Editions)
            | (atLeast > latestLow && (!removal.RecordsAttach || back is null) ? Doubts.MayBeUnplugged : Doubts.None);
        return doubts.ToHit(
            back?.TimeUs ?? lastLow,
            $"After the Hard Reset VBUS was at vSafe0V for {seen}{(back is null ? " and did not come back" : "")}; {removal.Instrument.Text(back?.Millivolts ?? 0)}.",
            $"{RunText.Time(soonest)} to {RunText.Time(latest)} at vSafe0V{(removal.InEprMode == true ? " in EPR mode" : "")}", seen);
    }
}
