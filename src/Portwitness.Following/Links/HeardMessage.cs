using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using Portwitness.Captures;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following.Links;

/// <summary>One message of a capture with what was learned of it, as followers see it. It lives as long as the call.</summary>
public ref struct HeardMessage(in MessageView view)
{
    private readonly MessageView _view = view;

    /// <summary>The bytes, taken apart; by reference, as all followers read it for every message.</summary>
    [UnscopedRef]
    public readonly ref readonly MessageView View => ref _view;

    /// <summary>What it is.</summary>
    public MessageKind Kind { get; } = view.Header.Kind;

    /// <summary>Index in the capture, counted from 1.</summary>
    public required long Index { get; init; }

    /// <summary>Microseconds from the start of the capture.</summary>
    public required long TimeUs { get; init; }

    /// <summary>Whom it is between.</summary>
    public required SopKind Sop { get; init; }

    /// <summary>One bit for each bit of the message that was shown; empty when all were.</summary>
    public required ReadOnlySpan<byte> Known { get; init; }

    /// <summary>One bit for each bit of the header that was shown.</summary>
    public required ushort HeaderKnown { get; init; }

    /// <summary>Bits of its frame.</summary>
    public readonly int FrameBits => FrameEncoder.BitCount(2 + (View.ExtendedHeader is null ? 0 : 2) + View.Payload.Length);

    /// <summary>Whether the CRC was right; null when that was not recorded. A message with a wrong one says nothing.</summary>
    public required bool? CrcOk { get; init; }

    /// <summary>The data block that the message holds or completes; null when there is none, or more chunks are to come.</summary>
    public DataBlock? Block { get; set; }

    /// <summary>How well it was sent, when the line itself was recorded.</summary>
    public FrameQuality Quality { get; init; }

    /// <summary>What is wrong with the chunks of the block that this message belongs to or broke off.</summary>
    public ImmutableArray<ChunkFault> ChunkFaults { get; set; }

    /// <summary>Sent by the source or by the cable's plug, if that bit was shown.</summary>
    public bool FromSourceOrPlug => View.Header.SourceOrCablePlug;

    /// <summary>A record as it was received; block and chunks are known later.</summary>
    public static HeardMessage Of(in MessageRecord record, in MessageView view, long index, bool? crcOk) => new(view)
    {
        Index = index,
        TimeUs = record.TimeUs,
        Sop = record.Sop,
        Known = record.Known,
        HeaderKnown = HeaderKnownOf(record),
        CrcOk = crcOk,
        Quality = record.Quality,
    };

    /// <summary>One bit for each bit of a record's header that was shown.</summary>
    public static ushort HeaderKnownOf(in MessageRecord record) =>
        record.Known.IsEmpty ? ushort.MaxValue : BinaryPrimitives.ReadUInt16LittleEndian(record.Known);
}
