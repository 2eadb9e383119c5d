using System.Collections.Immutable;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>What a message did to the data block that is being put together.</summary>
public enum ChunkOutcome
{
    /// <summary>The message is no extended message: there is nothing to put together.</summary>
    PassedThrough,

    /// <summary>A chunk was taken; more are to come.</summary>
    Collecting,

    /// <summary>The block is whole.</summary>
    Complete,

    /// <summary>The block cannot become whole; what is there is handed over, the rest is not known.</summary>
    Broken,

    /// <summary>A chunk that was taken already; the first one counts.</summary>
    Repeated,

    /// <summary>A request for a chunk.</summary>
    ChunkRequest,

    /// <summary>The headers are missing or were not shown.</summary>
    NotReadable,
}

/// <summary>What can be wrong with chunks (R3.2v1.1, 6.2.1.2).</summary>
public enum ChunkFaultCode
{
    /// <summary>Bits of the headers that are needed were not shown.</summary>
    HeaderNotShown,

    /// <summary>The extended header is missing.</summary>
    NoExtendedHeader,

    /// <summary>Another message came before all chunks had.</summary>
    Interrupted,

    /// <summary>A later chunk came, but not the first.</summary>
    NotStarted,

    /// <summary>A chunk is missing.</summary>
    MissingChunk,

    /// <summary>A chunk came twice.</summary>
    RepeatedChunk,

    /// <summary>A chunk came after a later one.</summary>
    OutOfOrder,

    /// <summary>Data Size is not that of the first chunk.</summary>
    SizeDiffers,

    /// <summary>Data Size is above MaxExtendedMsgLen.</summary>
    SizeBeyondLimit,

    /// <summary>The chunk begins after the end of the block.</summary>
    BeyondSize,

    /// <summary>Fewer bytes are there than the chunk holds.</summary>
    CutShort,

    /// <summary>Number of Data Objects does not fit the chunk's bytes.</summary>
    ObjectCountDiffers,

    /// <summary>The bytes that fill up the last word are not zero.</summary>
    PaddingNotZero,

    /// <summary>Chunked is clear but Chunk Number is not 0.</summary>
    UnchunkedWithNumber,

    /// <summary>Chunked is clear in a message to or from a cable plug.</summary>
    UnchunkedWithCablePlug,

    /// <summary>A chunk came that was not asked for; told only where the receiver's messages are seen.</summary>
    NotRequested,

    /// <summary>A request for a chunk that is not the next one, or of a message that is not being sent.</summary>
    WrongRequest,

    /// <summary>A request for a chunk whose own fields are not those of a request.</summary>
    MalformedRequest,
}

/// <summary>One thing that is wrong.</summary>
/// <param name="Code">What.</param>
/// <param name="Chunk">The chunk it is about.</param>
/// <param name="Text">In words, with what was expected.</param>
public readonly record struct ChunkFault(ChunkFaultCode Code, int Chunk, string Text);

/// <summary>What came of one message, and of the block it belongs to.</summary>
/// <param name="Outcome">What the message did.</param>
/// <param name="Kind">The message.</param>
/// <param name="DataSize">Bytes of the whole block as the first chunk says it.</param>
/// <param name="Chunks">Numbers of the chunks that were taken, ascending.</param>
/// <param name="Block">The block when <paramref name="Outcome"/> is Complete or Broken; missing bytes are not known.</param>
/// <param name="Faults">What is wrong with this message; faults do not always break the block.</param>
public sealed record ChunkResult(
    ChunkOutcome Outcome,
    MessageKind Kind,
    int DataSize,
    ImmutableArray<int> Chunks,
    DataBlock? Block,
    ImmutableArray<ChunkFault> Faults)
{
    /// <summary>The block that this message broke off, as far as it had come; usually null.</summary>
    public ChunkResult? BrokenOff { get; init; }
}
