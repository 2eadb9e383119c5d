using System.IO.Hashing;

namespace Portwitness.PowerDelivery.Framing;

/// <summary>
/// The CRC-32 of a message (R3.2v1.1, 5.6.2): polynomial 0x04C11DB7, over header and data, sent least significant byte
/// first. It is the CRC-32 of Ethernet and zlib.
/// </summary>
public static class MessageCrc
{
    /// <summary>Bytes of a CRC on the wire.</summary>
    public const int Length = 4;

    /// <summary>What <see cref="Of"/> gives for a message with its own CRC behind it.</summary>
    public const uint Residue = 0x2144DF1C;

    /// <summary>The CRC of header and data.</summary>
    public static uint Of(ReadOnlySpan<byte> message) => Crc32.HashToUInt32(message);

    /// <summary>Whether bytes end in the right CRC of what is before it.</summary>
    public static bool IsRight(ReadOnlySpan<byte> messageAndCrc) => Of(messageAndCrc) == Residue;
}
