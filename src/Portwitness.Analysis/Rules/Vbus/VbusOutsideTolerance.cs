using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS stays outside the limits of its contract.</summary>
public sealed class VbusOutsideTolerance : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-outside-tolerance",
        Severity = Severity.Violation,
        Title = "VBUS stays outside its limits",
        Clause = Limits,
        Why = "A device relies on VBUS staying within 5 % of what was agreed. Too much can destroy it; too little makes it stop charging or "
            + "restart.",
        Evidence = Measured,
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
              - measure 9.6V 1A every 5ms for 500ms
            """,
            "VBUS stands at 9.6 V under a 9 V contract for half a second."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        (HighCase high, Run above, Doubts aboveDoubts) = HighSide.Of(segment);
        (LowCase low, Run below, Doubts belowDoubts) = LowSide.Of(segment);
        return high == HighCase.Stays && (low != LowCase.Stays || aboveDoubts == Doubts.None) ? ToHit(segment, above, aboveDoubts)
            : low == LowCase.Stays ? ToHit(segment, below, belowDoubts)
            : null;
    }

    private static VbusHit ToHit(VbusSegment segment, Run run, Doubts doubts) => doubts.ToHit(
        run.StartUs,
        Phrase.Of($"VBUS {(segment.Arrived || run.Samples == 1 ? "was" : "stayed at")} {run.Volts()}{run.Load()} under {segment.Terms.Text}: {run.Extent()}; {segment.Instrument.Text(run.Extreme)}.")
            + (segment.Terms.IsPps && run.Extreme < segment.Terms.Static.Minimum.Millivolts ? " The voltage or the current limit is too low." : ""),
        $"{segment.Terms.Static}", $"{run.Volts()}, {run.Extent()}", segment.Terms.Position);
}
