using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS takes too long from where it is turned on to vSafe5V.</summary>
public sealed class VbusTurnOnLate : VbusRemovalRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-turn-on-late",
        Severity = Severity.Violation,
        Title = "VBUS comes up too slowly",
        Clause = "R3.2v1.1 Table 7.23 (tSrcTurnOn)",
        Why = "A device that sees VBUS rise starts with what is there. Where 5 V takes too long, it starts at too little and may fail or start "
            + "again and again.",
        Evidence = Measured,
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - pause 300ms
              - measure 9V 1A every 5ms for 100ms
              - hard-reset alone
              - pause 200ms
              - measure 0V 0A every 10ms for 800ms
              - measure 2V 0A every 10ms for 400ms
              - measure 5V 0A
            """,
            "VBUS takes 400 ms from 2 V to 5 V."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusRemoval removal)
    {
        if (!removal.IsHardReset || removal.Back is not { } back || removal.Arrived is not { } arrived)
        {
            return null;
        }

        long atLeast = arrived.TimeUs - back.TimeUs - removal.Instrument.TimeUncertaintyUs - removal.GapBeforeArrivalUs;
        return atLeast <= VbusLimits.SrcTurnOnUs ? null
            : (SegmentDoubts.OfEdition(removal.Editions) | (removal.RecordsAttach ? Doubts.None : Doubts.MayBeUnplugged)).ToHit(
                arrived.TimeUs,
                $"After the Hard Reset VBUS took at least {RunText.Time(atLeast)} from where it was on to vSafe5V; {removal.Instrument.Text(arrived.Millivolts)}.",
                $"at most {RunText.Time(VbusLimits.SrcTurnOnUs)} from 0 V to vSafe5V", $"at least {RunText.Time(atLeast)}");
    }
}
