using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Rules.Line;

/// <summary>A frame holds five bits that stand for nothing.</summary>
public sealed class SymbolInvalid : LineRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "symbol-invalid",
        Severity = Severity.Caution,
        Title = "A frame holds five bits that stand for nothing",
        Clause = "R3.2v1.1 5.3",
        Why = "Each five bits of a message stand for four bits of data. Others are thrown away by every receiver with the whole message, which then "
            + "has to be sent again.",
        Evidence = BrokenFrameEvidence,
        Example = new ListExample(
            """
            {"capture":1}
            {"t":1000,"sop":"SOP","broke":"symbol-invalid","bit":94,"part":"A1"}
            """,
            "The third symbol of the message is none."),
        Category = RuleCategory.Line,
    };

    /// <summary>Samples that are lost make pulses too long or too short, and no symbols: such a frame, sent again, breaks again.</summary>
    public override bool HoldsBesideBrokenFrames => true;

    /// <inheritdoc/>
    public override void Check(in SentFrame frame, IHitSink hits)
    {
        if (frame.Break == FrameBreak.SymbolInvalid)
        {
            hits.Report(this, new Hit(Verdict.CannotTell, "Either the sender made a symbol that 4b5b does not have, or noise changed it on the way.")
            {
                Expected = "data, or the end of packet",
                Observed = "an invalid symbol",
                NextStep = RecordAgain,
            });
        }
    }
}
