using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS falls sooner after a Hard Reset than it may.</summary>
public sealed class VbusFellTooEarly : VbusRemovalRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-fell-too-early",
        Severity = Severity.Violation,
        Title = "VBUS falls too soon after a Hard Reset",
        Clause = "R3.2v1.1 Table 6.68 (tPSHardReset)",
        Why = "A device has 25 ms after a Hard Reset to save what it is doing and to take its load off. A source that cuts VBUS at once "
            + "breaks off under load.",
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
              - measure 9V 1A every 2ms for 100ms
              - hard-reset alone
              - measure 4V 0A every 2ms for 20ms
              - measure 0V 0A every 20ms for 700ms
              - pause 200ms
            """,
            "2 ms after the Hard Reset VBUS is at 4 V."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusRemoval removal)
    {
        if (!removal.IsHardReset || removal.FellEarly is not { } fell || removal.LeastBefore is not { } least)
        {
            return null;
        }

        Doubts doubts = SegmentDoubts.OfEdition(removal.Editions)
            | (removal.Instrument.Point == MeasuringPoint.Source ? Doubts.None : Doubts.NotAtSource)
            | (removal.LoadIsKnown ? Doubts.None : Doubts.NoCurrent);
        Duration after = RunText.Time(fell.TimeUs - removal.StartUs);
        return doubts.ToHit(
            fell.TimeUs,
            $"{after} after the Hard Reset VBUS was already {Voltage.FromMillivolts(fell.Millivolts)}; {removal.Instrument.Text(fell.Millivolts)}.",
            $"at least {Voltage.FromMillivolts(least)} for {RunText.Time(VbusLimits.PSHardResetMinimumUs)} after the Hard Reset",
            $"{Voltage.FromMillivolts(fell.Millivolts)} after {after}");
    }
}
