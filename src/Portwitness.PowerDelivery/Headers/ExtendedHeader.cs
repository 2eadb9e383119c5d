using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Headers;

/// <summary>The extended message header, 16 bits (R3.2v1.1, Table 6.3). Any word is accepted and kept.</summary>
/// <param name="Raw">The word, first byte on the wire lowest.</param>
public readonly record struct ExtendedHeader(ushort Raw)
{
    private static readonly BitField ChunkedField = BitField.Flag("Chunked", 15);
    private static readonly BitField NumberField = new("Chunk Number", 14, 11);
    private static readonly BitField RequestField = BitField.Flag("Request Chunk", 10);
    private static readonly BitField SizeField = new("Data Size", 8, 0);

    /// <summary>All sixteen bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Extended Message Header", 16, "R3.2v1.1 Table 6.3",
        ChunkedField, NumberField, RequestField, BitField.Reserved(9, 9), SizeField);

    /// <summary>Whether the message is sent in chunks of at most 26 bytes.</summary>
    public bool Chunked => ChunkedField.IsSet(Raw);

    /// <summary>Chunk Number, 0 to 15 in the field, 0 to 9 in use.</summary>
    public int ChunkNumber => (int)NumberField.Get(Raw);

    /// <summary>Whether this asks for a chunk rather than carrying one.</summary>
    public bool RequestChunk => RequestField.IsSet(Raw);

    /// <summary>Bytes in the whole data block, 0 to 511 in the field, at most 260 in use; the same in every chunk.</summary>
    public int DataSize => (int)SizeField.Get(Raw);

    /// <summary>Builds an extended header.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static ExtendedHeader Create(bool chunked, int chunkNumber, bool requestChunk, int dataSize)
    {
        uint word = ChunkedField.SetFlag(0, chunked);
        word = NumberField.SetScaled(word, chunkNumber);
        word = RequestField.SetFlag(word, requestChunk);
        return new ExtendedHeader((ushort)SizeField.SetScaled(word, dataSize));
    }
}
