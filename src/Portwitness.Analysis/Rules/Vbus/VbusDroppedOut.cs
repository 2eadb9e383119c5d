using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS collapses under a contract without a reset or a detach.</summary>
public sealed class VbusDroppedOut : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-dropped-out",
        Severity = Severity.Violation,
        Title = "VBUS drops out",
        Clause = "R3.2v1.1 7.1.8",
        Why = "A contract holds until another one, a reset or a detach. Where VBUS collapses without one of them, what is connected stops "
            + "charging or restarts again and again.",
        Evidence = "VBUS and current, and that the device stayed attached: attach and detach as events, or VBUS that comes back. A load beyond the "
            + "contract excuses the source.",
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - pause 300ms
              - measure 9V 2.5A every 5ms for 100ms
              - measure 0V 0A every 5ms for 200ms
              - measure 9V 2.5A every 5ms for 100ms
            """,
            "VBUS is gone for a fifth of a second and comes back."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        (LowCase low, Run run, Doubts doubts) = LowSide.Of(segment);
        return low != LowCase.DropsOut ? null : doubts.ToHit(
            run.StartUs,
            $"VBUS collapsed to {run.Volts()} under {segment.Terms.Text}, without a reset or a detach: {run.Extent()}; {segment.Instrument.Text(run.Extreme)}.",
            $"{segment.Terms.Static}", $"{run.Volts()}, {run.Extent()}", segment.Terms.Position);
    }
}
