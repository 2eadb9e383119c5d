namespace Portwitness.PowerDelivery.Framing;

/// <summary>How a transmitter sends, its flaws included.</summary>
public sealed record LineShape
{
    /// <summary>Bits a second; the standard allows 270,000 to 330,000 (R3.2v1.1, 5.8.1, fBitRate).</summary>
    public int BitsPerSecond { get; init; } = 300_000;

    /// <summary>How much faster the end of a frame is than its beginning, in parts per million; negative for slower.</summary>
    public int DriftPpm { get; init; }

    /// <summary>How far every edge may stand from its place, in nanoseconds either way.</summary>
    public int JitterNs { get; init; }

    /// <summary>How much later than falling edges rising ones come, in nanoseconds; negative for sooner.</summary>
    public int RiseLagNs { get; init; }

    /// <summary>Whether the line without a sender shows as high: it rests at a level that Rp and Rd decide.</summary>
    public bool IdlesHigh { get; init; } = true;

    /// <summary>What the jitter is drawn from.</summary>
    public ulong Seed { get; init; }
}

/// <summary>A change of the line's level.</summary>
/// <param name="TimePs">When, in picoseconds.</param>
/// <param name="High">To which level.</param>
public readonly record struct LineEdge(long TimePs, bool High);
