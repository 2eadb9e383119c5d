using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS is too high for a moment.</summary>
public sealed class VbusOvershoot : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-overshoot",
        Severity = Severity.Violation,
        Title = "VBUS overshoots",
        Clause = Limits,
        Why = "For a moment VBUS may leave its limits by half a volt, under PPS by a tenth. A higher peak, when the voltage changes or the load "
            + "goes, can destroy what is connected.",
        Evidence = Measured,
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - request 2 at 3A
              - accept
              - pause 30ms
              - measure 5V 0A
              - pause 50ms
              - measure 10.5V 0A every 5ms for 10ms
              - ready after 126ms
            """,
            "VBUS peaks at 10.5 V on its way to 9 V."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        (HighCase high, Run run, Doubts doubts) = HighSide.Of(segment);
        if (high != HighCase.Overshoots)
        {
            return null;
        }

        bool moving = run != segment.Valid.High.Deepest && run != segment.Valid.HighAsRead.Deepest;
        Voltage expected = (moving ? segment.Moving : segment.Valid).Band.Maximum;
        return doubts.ToHit(
            run.StartUs,
            $"VBUS peaked at {run.Volts()}{run.Load()} {(moving ? "on its way to" : "under")} {segment.Terms.Text}: {run.Extent()}; {segment.Instrument.Text(run.Extreme)}.",
            $"at most {expected} for a moment", $"{run.Volts()}, {run.Extent()}", segment.Terms.Position);
    }
}
