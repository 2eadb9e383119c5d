using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>A PPS source lets more current flow than was asked for.</summary>
public sealed class PpsCurrentLimitWrong : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "pps-current-limit-wrong",
        Severity = Severity.Violation,
        Title = "PPS does not limit the current",
        Clause = "R3.2v1.1 7.1.4.2.2, Table 7.23 (iPpsCLNew)",
        Why = "A phone that charges by PPS leaves it to the charger to limit the current, and connects its battery directly. A charger that lets "
            + "more flow overcharges the cells.",
        Evidence = "The current every few milliseconds under a PPS contract; more than 275 ms above the limit (how long a source may take to get hold of "
            + "it is from memory, and generous).",
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - contract 3 at 9V 2A
              - pause 300ms
              - measure 9V 2.4A every 5ms for 400ms
            """,
            "2.4 A flow where 2 A, give or take 150 mA, were asked for."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        if (segment.Terms is not { IsPps: true, Current: { } asked } || segment.Overload.Longest is not { } run
            || run.DurationUs <= VbusLimits.PpsLimitingUs)
        {
            return null;
        }

        Doubts doubts = segment.General() | (run.Samples < Run.LeastSamples ? Doubts.FewSamples : Doubts.None);
        Current seen = Current.FromMilliamperes(run.Extreme);
        return doubts.ToHit(
            run.StartUs,
            $"{seen} flowed under {segment.Terms.Text}: {run.Extent()}, ±{segment.Instrument.OfCurrent(run.Extreme)} mA.",
            $"limited to {asked}, at most {VbusLimits.PpsCurrentLimitMaximum(asked)}", $"{seen}, {run.Extent()}", segment.Terms.Position);
    }
}
