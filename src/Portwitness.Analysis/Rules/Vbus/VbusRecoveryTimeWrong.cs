using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>After a Hard Reset VBUS comes back too soon or too late.</summary>
public sealed class VbusRecoveryTimeWrong : VbusRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-recovery-time-wrong",
        Severity = Severity.Violation,
        Title = "VBUS comes back at the wrong time",
        Clause = "R3.2v1.1 Tables 6.68 and 7.23 (tSrcRecover)",
        Why = "After a Hard Reset a device has a time to fall back to its beginning. VBUS that returns sooner finds it unprepared; VBUS that "
            + "returns late makes it think that it was unplugged.",
        Evidence = "VBUS every few milliseconds after the Hard Reset, and whether EPR mode was in force; too late only with attach and detach as events.",
        Example = new(
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
            "VBUS comes back after less than 300 ms; 660 ms are the least.", IsScript: true),
        Category = "vbus",
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusRemoval removal)
    {
        if (!removal.IsHardReset || removal.Back is not { } back || removal.FirstLowUs is not { } firstLow || removal.LastLowUs is not { } lastLow)
        {
            return null;
        }

        long atMost = back.TimeUs - (removal.LastHighBefore?.TimeUs ?? removal.StartUs) + removal.Instrument.TimeUncertaintyUs;
        long atLeast = lastLow - firstLow - removal.Instrument.TimeUncertaintyUs;
        (long soonest, long latest) = (
            removal.InEprMode == true ? VbusLimits.SrcRecoverEprMinimumUs : VbusLimits.SrcRecoverSprMinimumUs,
            removal.InEprMode == false ? VbusLimits.SrcRecoverSprMaximumUs : VbusLimits.SrcRecoverEprMaximumUs);
        if (atMost >= soonest && atLeast <= latest)
        {
            return null;
        }

        string seen = atMost < soonest ? $"at most {RunText.Time(atMost)}" : $"at least {RunText.Time(atLeast)}";
        Doubts doubts = DoubtReasons.OfEdition(removal.Editions)
            | (atLeast > latest && !removal.RecordsAttach ? Doubts.MayBeUnplugged : Doubts.None);
        return doubts.ToHit(
            back.TimeUs, $"After the Hard Reset VBUS was at vSafe0V for {seen}; {removal.Instrument.Text(back.Millivolts)}.",
            $"{RunText.Time(soonest)} to {RunText.Time(latest)} at vSafe0V{(removal.InEprMode == true ? " in EPR mode" : "")}", seen);
    }
}
