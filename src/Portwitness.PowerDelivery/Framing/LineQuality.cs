namespace Portwitness.PowerDelivery.Framing;

/// <summary>How well a frame was sent, as far as the times of its edges show it.</summary>
/// <param name="BitsPerSecond">
/// The rate of the last <paramref name="RateBits"/> bits of the preamble, to which the standard refers (R3.2v1.1, 5.8.1); 0 when
/// none were seen.
/// </param>
/// <param name="RateBits">Bits that this is the average of: 32, or as many as the preamble has.</param>
/// <param name="FrameBitsPerSecond">The average rate of what follows the preamble; 0 when nothing does.</param>
/// <param name="WorstJitterPs">
/// The farthest that an edge stood from where the beginning of its bit and the average of the 32 bits before put it. The
/// first 16 bits do not count, for want of an average.
/// </param>
public readonly record struct LineQuality(int BitsPerSecond, int RateBits, int FrameBitsPerSecond, long WorstJitterPs)
{
    /// <summary>How much faster the frame is than its preamble, in parts per million; negative for slower.</summary>
    public int DriftPpm => BitsPerSecond == 0 || FrameBitsPerSecond == 0
        ? 0
        : (int)((FrameBitsPerSecond - (long)BitsPerSecond) * 1_000_000 / BitsPerSecond);

    internal static int Rate(int bits, long picoseconds) =>
        picoseconds <= 0 ? 0 : (int)Math.Min(((bits * 1_000_000_000_000L) + (picoseconds / 2)) / picoseconds, int.MaxValue);
}
