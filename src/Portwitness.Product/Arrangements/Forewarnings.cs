using Portwitness.Analysis.Bench;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Product.Arrangements;

/// <summary>What came before a list and may say why it is another one, in words.</summary>
internal static class Forewarnings
{
    // A list is owed 15 ms after it was asked for (R3.2v1.1, tReceiverResponse), and within some two seconds of a Hard Reset
    // (tSrcRecover, tSrcTurnOn, tFirstSourceCap): what is much older has nothing to do with it.
    private const long RequestUs = 1_000_000;
    private const long HardResetUs = 5_000_000;

    /// <summary>"1.2 s after an Alert (OTP Event) in message 12"; of each kind the last since the list before; empty for none.</summary>
    /// <param name="listUs">When the list came.</param>
    /// <param name="sinceUs">When the list before began to count.</param>
    /// <param name="all">All of the capture, in order.</param>
    public static Phrase Before(long listUs, long sinceUs, IReadOnlyList<Forewarning> all) => Phrase.Join(
        ", ", all.Where(one => one.TimeUs >= sinceUs && one.TimeUs <= listUs && listUs - one.TimeUs <= Most(one.Kind))
            .GroupBy(static one => one.Kind).Select(static same => same.Last())
            .Select(one => Phrase.Of($"{new Duration(listUs - one.TimeUs, DurationForm.Offer)} after {one.Words}")));

    private static long Most(ForewarningKind kind) => kind switch
    {
        ForewarningKind.Request => RequestUs,
        ForewarningKind.HardReset => HardResetUs,
        _ => long.MaxValue,
    };
}
