using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Rules.Line;

/// <summary>A frame stops before its end of packet.</summary>
public sealed class FrameNotEnded : LineRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "frame-not-ended",
        Severity = Severity.Caution,
        Title = "A frame stops before its end of packet",
        Clause = "R3.2v1.1 5.6.1.5",
        Why = "A message without its end is lost, and has to be sent again. A sender that stops, a plug that is pulled, or a bad contact looks the "
            + "same on the line.",
        Evidence = BrokenFrameEvidence + " No other frame within 2 ms broke.",
        Example = new ListExample(
            """
            {"capture":1}
            {"t":1000,"sop":"SOP","broke":"not-ended","bit":109,"part":"A141"}
            """,
            "The line falls idle after two bytes."),
        Category = RuleCategory.Line,
    };

    /// <inheritdoc/>
    public override void Check(in SentFrame frame, IHitSink hits)
    {
        if (frame.Break == FrameBreak.NotEnded)
        {
            hits.Report(this, new Hit(Verdict.CannotTell, "The line fell idle within a frame: its sender stopped, was cut off, or could no longer be heard.")
            {
                Expected = "an end of packet",
                Observed = "an idle line",
                NextStep = RecordAgain,
            });
        }
    }
}
