using System.Buffers.Binary;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>
/// A message's bytes, split into header, extended header, data and what is left over (R3.2v1.1, 6.2.1). Nothing is
/// copied, allocated or judged: what the sizes claim and what is present are both told.
/// </summary>
/// <remarks>The bytes begin at the header and end before the CRC.</remarks>
public readonly ref struct MessageView
{
    private const int HeaderBytes = 2;
    private const int ObjectBytes = 4;
    private const int ChunkBytes = Limits.MessageLimits.MaxExtendedMsgChunkLen;

    private readonly int dataLength;
    private readonly int paddedLength;

    private MessageView(ReadOnlySpan<byte> bytes)
    {
        Header = new MessageHeader(BinaryPrimitives.ReadUInt16LittleEndian(bytes));
        ReadOnlySpan<byte> rest = bytes[HeaderBytes..];
        if (!Header.Extended)
        {
            Payload = rest;
            CompleteObjects = Math.Min(Header.ObjectCount, rest.Length / ObjectBytes);
            dataLength = paddedLength = CompleteObjects * ObjectBytes;
        }
        else if (rest.Length < HeaderBytes)
        {
            Payload = rest;
        }
        else
        {
            ExtendedHeader extended = new(BinaryPrimitives.ReadUInt16LittleEndian(rest));
            ExtendedHeader = extended;
            Payload = rest[HeaderBytes..];
            dataLength = Math.Min(BlockLength(extended), Payload.Length);
            int claimed = extended.Chunked ? (Header.ObjectCount * ObjectBytes) - HeaderBytes : 0;
            paddedLength = Math.Clamp(claimed, dataLength, Payload.Length);
        }
    }

    /// <summary>The first two bytes.</summary>
    public MessageHeader Header { get; }

    /// <summary>The next two bytes of an extended message; null for other messages, and when they are missing.</summary>
    public ExtendedHeader? ExtendedHeader { get; }

    /// <summary>Everything after the header, or after both headers.</summary>
    public ReadOnlySpan<byte> Payload { get; }

    /// <summary>
    /// The data as far as it is present: complete data objects, or this message's part of the data block, without
    /// the padding of a chunk. A request for a chunk has none.
    /// </summary>
    public ReadOnlySpan<byte> Data => Payload[..dataLength];

    /// <summary>Zeroes, usually, that fill up the last word of a chunk.</summary>
    public ReadOnlySpan<byte> Padding => Payload[dataLength..paddedLength];

    /// <summary>Bytes that no size accounts for: an incomplete object, or bytes after the last one.</summary>
    public ReadOnlySpan<byte> TrailingBytes => Payload[paddedLength..];

    /// <summary>Number of Data Objects as the header says it, 0 to 7; of an extended message, words after the header.</summary>
    public int ClaimedObjects => Header.ObjectCount;

    /// <summary>Claimed data objects that are present with all four bytes; 0 for extended messages.</summary>
    public int CompleteObjects { get; }

    /// <summary>Splits bytes; false when there are fewer than the two of a header.</summary>
    public static bool TryRead(ReadOnlySpan<byte> bytes, out MessageView view)
    {
        view = bytes.Length < HeaderBytes ? default : new MessageView(bytes);
        return bytes.Length >= HeaderBytes;
    }

    /// <summary>A data object, counted from 0.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not below <see cref="CompleteObjects"/>.</exception>
    public uint ObjectAt(int index) => (uint)index < (uint)CompleteObjects
        ? BinaryPrimitives.ReadUInt32LittleEndian(Payload[(index * ObjectBytes)..])
        : throw new ArgumentOutOfRangeException(nameof(index), index, $"There are {CompleteObjects} complete objects.");

    /// <summary>Name and sizes, for example "Source_Capabilities, 2 of 7 objects, 3 trailing bytes".</summary>
    public override string ToString()
    {
        string text = Header.Kind.Name;
        text += Header.Extended
            ? ExtendedHeader is { } extended ? $", {Data.Length} of {extended.DataSize} bytes" : ", no extended header"
            : $", {CompleteObjects} of {ClaimedObjects} objects";
        return TrailingBytes.IsEmpty ? text : $"{text}, {TrailingBytes.Length} trailing bytes";
    }

    private static int BlockLength(ExtendedHeader extended)
    {
        if (extended.RequestChunk)
        {
            return 0;
        }

        return extended.Chunked
            ? Math.Clamp(extended.DataSize - (extended.ChunkNumber * ChunkBytes), 0, ChunkBytes)
            : extended.DataSize;
    }
}
