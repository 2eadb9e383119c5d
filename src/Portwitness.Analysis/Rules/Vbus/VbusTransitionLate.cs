using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS arrives later than the standard allows.</summary>
public sealed class VbusTransitionLate : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-transition-late",
        Severity = Severity.Violation,
        Title = "VBUS arrives late",
        Clause = "R3.2v1.1 Tables 7.23 and 7.25, 6.68 (tSrcTransition, tSrcSettle, tPpsSrcTrans, tAvsSrcTrans)",
        Why = "After Accept a device waits for its new voltage a limited time and then resets the port. A source that is slow, or says PS_RDY too "
            + "soon, makes charging begin anew again and again.",
        Evidence = "VBUS every few milliseconds from Accept on. That PS_RDY means an arrived voltage is from memory: PS_RDY that is only early cannot "
            + "be told a fault.",
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
              - ready after 126ms
              - measure 6V 0A every 5ms for 600ms
              - measure 9V 0A every 5ms for 100ms
            """,
            "VBUS is 9 V seven tenths of a second after Accept; 310 ms are allowed."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        if (segment.Late is { } late)
        {
            Doubts doubts = (segment.LateIsLow ? segment.OfLow(late) : segment.General())
                | (late.Samples < 2 ? Doubts.FewSamples : Doubts.None);
            return ToHit(segment, late, doubts, "was still");
        }

        // A single sample may be a load step.
        return segment.Arrived && segment.Early.Longest is { Samples: >= 2 } early
            ? ToHit(segment, early, segment.General() | Doubts.FromMemory, "after PS_RDY was still")
            : null;
    }

    private static VbusHit ToHit(VbusSegment segment, Run run, Doubts doubts, Phrase was) => doubts.ToHit(
        run.EndUs,
        $"VBUS {was} {run.Volts()}{run.Load()} {RunText.Time(run.EndUs - segment.StartUs)} after Accept of {segment.Terms.Text}: {run.Extent()}; "
            + $"{segment.Instrument.Text(run.Extreme)}, {RunText.Time(VbusSegment.GoodCrcUs)} allowed for GoodCRC.",
        $"{segment.Terms.Valid} within {RunText.Time(segment.Terms.SettleUs(segment.Before))} of GoodCRC of Accept",
        $"{run.Volts()} {RunText.Time(run.EndUs - segment.StartUs)} after Accept", segment.Terms.Position);
}
