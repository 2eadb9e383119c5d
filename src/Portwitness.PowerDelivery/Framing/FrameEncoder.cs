using System.Buffers.Binary;

namespace Portwitness.PowerDelivery.Framing;

/// <summary>Turns messages and resets into the bits of the line, before BMC (R3.2v1.1, 5.3 to 5.6).</summary>
/// <remarks>A bit is one element, 0 or 1, in the order of sending.</remarks>
public static class FrameEncoder
{
    /// <summary>Bits of the preamble: 0 and 1 in turn, beginning with 0.</summary>
    public const int PreambleBits = 64;

    private const int SymbolBits = 5;
    private const int SymbolsPerByte = 2;

    /// <summary>Bits of a frame with a message of so many bytes, header included and CRC not.</summary>
    public static int BitCount(int messageBytes) =>
        PreambleBits + (SymbolBits * (OrderedSet.Length + (SymbolsPerByte * (messageBytes + MessageCrc.Length)) + 1));

    /// <summary>Preamble, ordered set, message, its CRC, and end of packet.</summary>
    public static byte[] Encode(SopKind sop, ReadOnlySpan<byte> message) => Encode(sop, message, MessageCrc.Of(message));

    /// <summary>The same with another CRC, as a line with disturbances shows it.</summary>
    public static byte[] Encode(SopKind sop, ReadOnlySpan<byte> message, uint sentCrc)
    {
        byte[] bits = new byte[BitCount(message.Length)];
        int at = WriteStart(bits, OrderedSet.Of(sop));
        at = WriteBytes(bits, at, message);
        Span<byte> crc = stackalloc byte[MessageCrc.Length];
        BinaryPrimitives.WriteUInt32LittleEndian(crc, sentCrc);
        at = WriteBytes(bits, at, crc);
        WriteSymbol(bits, at, SymbolCode.Encode(SymbolKind.Eop));
        return bits;
    }

    /// <summary>A Hard Reset or Cable Reset: preamble and ordered set only.</summary>
    /// <exception cref="ArgumentException">The ordered set begins a message.</exception>
    public static byte[] EncodeReset(OrderedSetKind reset)
    {
        if (OrderedSet.SopOf(reset) is not null)
        {
            throw new ArgumentException($"{reset} begins a message and is no reset.", nameof(reset));
        }

        byte[] bits = new byte[PreambleBits + (SymbolBits * OrderedSet.Length)];
        WriteStart(bits, reset);
        return bits;
    }

    private static int WriteStart(Span<byte> bits, OrderedSetKind set)
    {
        for (int i = 0; i < PreambleBits; i++)
        {
            bits[i] = (byte)(i % 2);
        }

        int at = PreambleBits;
        foreach (SymbolKind code in OrderedSet.CodesOf(set))
        {
            at = WriteSymbol(bits, at, SymbolCode.Encode(code));
        }

        return at;
    }

    private static int WriteBytes(Span<byte> bits, int at, ReadOnlySpan<byte> bytes)
    {
        foreach (byte value in bytes)
        {
            at = WriteSymbol(bits, at, SymbolCode.Encode(value & 0xF));
            at = WriteSymbol(bits, at, SymbolCode.Encode(value >> 4));
        }

        return at;
    }

    private static int WriteSymbol(Span<byte> bits, int at, byte symbol)
    {
        for (int bit = 0; bit < SymbolBits; bit++)
        {
            bits[at + bit] = (byte)((symbol >> bit) & 1);
        }

        return at + SymbolBits;
    }
}
