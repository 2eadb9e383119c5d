namespace Portwitness.PowerDelivery.Framing;

/// <summary>Why a frame could not be read to its end.</summary>
public enum FrameBreak
{
    /// <summary>It was read whole; its CRC may still be wrong.</summary>
    None,

    /// <summary>The line was busy as with a frame, but nowhere alternated as a preamble does.</summary>
    PreambleMissing,

    /// <summary>What follows the preamble agrees with no ordered set in three of four places (R3.2v1.1, Table 5.3).</summary>
    OrderedSetUnknown,

    /// <summary>Five bits that stand for no data, or for a K-code that has no place in a message (R3.2v1.1, 5.3).</summary>
    SymbolInvalid,

    /// <summary>A change of level where BMC has none, or none where it has one.</summary>
    EdgeMisplaced,

    /// <summary>The line fell idle before the end of packet.</summary>
    NotEnded,

    /// <summary>The end of packet came after half a byte, or before a header and a CRC.</summary>
    EndedTooEarly,

    /// <summary>More bytes than any sender has cause to send.</summary>
    TooLong,

    /// <summary>The recording stopped within the frame; nothing can be said of the sender.</summary>
    RecordingStopped,
}

/// <summary>One frame as the line receiver found it, as a view: it lives as long as the call that hands it over.</summary>
/// <remarks>Times are picoseconds on the clock of the edges. Bits count from 0, the first bit of the preamble that was seen.</remarks>
public readonly ref struct LineFrame
{
    /// <summary>When the first bit that was seen began.</summary>
    public required long StartPs { get; init; }

    /// <summary>When the last bit ended that was read.</summary>
    public required long EndPs { get; init; }

    /// <summary>Bits in front of the ordered set; of a frame without one, in front of where the alternation ends.</summary>
    public int PreambleBits { get; init; }

    /// <summary>
    /// Whether the line was idle before, so that no bit of the preamble can have been missed but the first: where the line
    /// idles at the level with which the preamble begins, the first bit begins without a change.
    /// </summary>
    public bool IdleBefore { get; init; }

    /// <summary>Changes of level between the idle line and the preamble that belong to no bit.</summary>
    public int StrayEdges { get; init; }

    /// <summary>Pulses too short for BMC that were left out, from the idle line on.</summary>
    public int Glitches { get; init; }

    /// <summary>What the four symbols after the preamble announce; null when they agree with no set.</summary>
    public OrderedSetKind? Set { get; init; }

    /// <summary>How many of the four symbols are those of <see cref="Set"/>: 3 or 4; 0 without a set.</summary>
    public int MatchingSymbols { get; init; }

    /// <summary>The four symbols after the preamble; empty when the frame broke before.</summary>
    public ReadOnlySpan<SymbolKind> Symbols { get; init; }

    /// <summary>The whole bytes that were read after the ordered set, the CRC among them when the frame is whole.</summary>
    public ReadOnlySpan<byte> Bytes { get; init; }

    /// <summary>Header and data without the CRC; empty unless this is a whole message.</summary>
    public ReadOnlySpan<byte> Message => IsMessage ? Bytes[..^MessageCrc.Length] : [];

    /// <summary>Whether this is a whole message; its CRC may be wrong.</summary>
    public bool IsMessage => Break == FrameBreak.None && Set <= OrderedSetKind.SopDoublePrimeDebug;

    /// <summary>Whether the CRC of a whole message is right.</summary>
    public bool CrcIsRight => IsMessage && MessageCrc.IsRight(Bytes);

    /// <summary>Why the frame ends where it does.</summary>
    public FrameBreak Break { get; init; }

    /// <summary>The bit at which it broke: of an invalid symbol the first of its five.</summary>
    public int BreakBit { get; init; }

    /// <summary>When that bit began.</summary>
    public long BreakPs { get; init; }

    /// <summary>How well it was sent.</summary>
    public LineQuality Quality { get; init; }
}

/// <summary>Takes what a line receiver finds, in the order of time.</summary>
public interface ILineFrameSink
{
    /// <summary>Takes a frame, whole or broken.</summary>
    void OnFrame(in LineFrame frame);
}
