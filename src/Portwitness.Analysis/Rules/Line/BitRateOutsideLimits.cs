using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Rules.Line;

/// <summary>Frames are sent faster or slower than BMC allows.</summary>
public sealed class BitRateOutsideLimits : LineRule
{
    // fBitRate (R3.2v1.1, 5.8.1).
    private const int Slowest = 270_000;
    private const int Fastest = 330_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "bit-rate-outside-limits",
        Severity = Severity.Violation,
        Title = "Frames are sent faster or slower than 270 to 330 kbit/s",
        Clause = "R3.2v1.1 5.8.1",
        Why = "Receivers need only understand rates within the limits. A charger that sends outside of them works with some devices "
            + "and stays at 5 V, or silent, with others.",
        Evidence = "A recording of the CC line whose samples are close enough together to tell the rate, and the CRC; no frame within 2 ms broke.",
        Example = new ListExample(
            """
            {"capture":1}
            {"t":1000,"sop":"SOP","hex":"A1112C91010A","crc":"C4C7F9D1","bit_rate":262144,"bit_rate_pm":30}
            """,
            "The preamble runs at 262 kbit/s."),
        Category = RuleCategory.Line,
    };

    /// <inheritdoc/>
    public override void Check(in SentFrame frame, IHitSink hits)
    {
        if (frame.Break != PowerDelivery.Framing.FrameBreak.None || frame.Quality.BitsPerSecond is not { } rate
            || rate is >= Slowest and <= Fastest)
        {
            return;
        }

        bool isSlow = rate < Slowest;
        int? uncertainty = frame.Quality.RateUncertainty;
        Phrase detail = uncertainty is { } within
            ? Phrase.Of($"The preamble runs at {rate} bit/s, ±{within} for the steps of the recording and the jitter of edges.")
            : $"The preamble runs at {rate} bit/s; how exact that is was not recorded.";
        long beyond = isSlow ? Slowest - rate : rate - Fastest;
        bool proved = uncertainty is { } certain && beyond > certain;
        Hit hit = proved ? OfSender(frame.Sender, detail) : new Hit(Verdict.CannotTell, detail)
        {
            NextStep = "Record the CC line with more samples a second.",
        };
        hits.Report(this, hit with
        {
            Expected = "270 to 330 kbit/s",
            Observed = isSlow ? "below 270 kbit/s" : "above 330 kbit/s",
        });
    }
}
