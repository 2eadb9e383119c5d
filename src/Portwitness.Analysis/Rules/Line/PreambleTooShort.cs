using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Rules.Line;

/// <summary>A frame begins with fewer than 64 bits of preamble.</summary>
public sealed class PreambleTooShort : LineRule
{
    private const int Whole = PowerDelivery.Framing.FrameEncoder.PreambleBits;

    // The first bit may begin without a change of level; and an instrument may need a few bits to settle ("common practice, no
    // source").
    private const int Enough = Whole - 1;
    private const int Unsettled = Whole - 4;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "preamble-too-short",
        Severity = Severity.Violation,
        Title = "A frame begins with fewer than 64 bits of preamble",
        Clause = "R3.2v1.1 5.6.1.1",
        Why = "Receivers find the rate and the beginning of a message in its preamble. With a short one, some devices miss messages, "
            + "and have to wait for them to be sent again.",
        Evidence = "A recording of the CC line that shows it idle before the frame, and the CRC; no frame within 2 ms broke.",
        Example = new ListExample(
            """
            {"capture":1}
            {"t":1000,"sop":"SOP","hex":"A1112C91010A","crc":"C4C7F9D1","preamble_bits":48}
            """,
            "48 bits, where 64 are due."),
        Category = RuleCategory.Line,
    };

    /// <inheritdoc/>
    public override void Check(in SentFrame frame, IHitSink hits)
    {
        if (frame.Break != PowerDelivery.Framing.FrameBreak.None || frame.Quality.PreambleBits is not { } bits || bits >= Enough)
        {
            return;
        }

        Phrase detail = $"The line was idle, and {bits} bits of preamble were seen after it.";
        Hit hit = bits < Unsettled ? OfSender(frame.Sender, detail) : new Hit(Verdict.CannotTell, detail)
        {
            NextStep = "Record again: an instrument may miss the first bits.",
        };
        hits.Report(this, hit with
        {
            Expected = "64 bits", Observed = $"{bits} bits",
        });
    }
}
