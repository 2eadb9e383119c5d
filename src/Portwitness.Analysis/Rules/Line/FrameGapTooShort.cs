using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Line;

/// <summary>A frame begins too soon after the one before.</summary>
public sealed class FrameGapTooShort : LineRule
{
    private const int NanosecondsPerMicrosecond = 1_000;
    private static readonly long Shortest = TimingLimits.ShortestUs(TimingLimits.TInterFrameGap);

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "frame-gap-too-short",
        Severity = Severity.Violation,
        Title = "A frame begins less than 25 us after the one before",
        Clause = "R3.2v1.1 Table 5.18 (tInterFrameGap)",
        Why = "Receivers need the pause to see that the line is idle. Without it some of them take two frames for one, and both are lost.",
        Evidence = "A recording of the CC line with the times of both frames' first bits, and the rate and the CRC of the first; no frame within "
            + "2 ms broke.",
        Example = new ListExample(
            """
            {"capture":1,"time_of":"start","resolution_us":1}
            {"t":1000,"sop":"SOP","hex":"A1112C91010A","crc":"C4C7F9D1","bit_rate":300000,"bit_rate_pm":300,"preamble_bits":64}
            {"t":1640,"sop":"SOP","hex":"A2110001","crc_ok":true,"bit_rate":300000,"bit_rate_pm":300,"preamble_bits":64}
            """,
            "The second frame begins about 10 us after the end of the first."),
        Category = RuleCategory.Line,
    };

    /// <inheritdoc/>
    public override void Check(in SentFrame frame, IHitSink hits)
    {
        if (frame.Gap is not { } gap || gap.Nanoseconds >= Shortest * NanosecondsPerMicrosecond)
        {
            return;
        }

        long least = Math.Max(gap.Nanoseconds, 0) / NanosecondsPerMicrosecond;
        Phrase detail = $"The frame begins {least} us after the end of the one before, ±{Math.Max(gap.Uncertainty / NanosecondsPerMicrosecond, 1)} us.";
        bool isProved = gap.Nanoseconds + gap.Uncertainty < Shortest * NanosecondsPerMicrosecond;
        Hit hit = isProved ? OfSender(frame.Sender, detail) : new Hit(Verdict.CannotTell, detail)
        {
            NextStep = "Record the CC line with more samples a second.",
        };
        hits.Report(this, hit with
        {
            Expected = $"at least {Shortest} us", Observed = $"less than {Shortest} us",
        });
    }
}
