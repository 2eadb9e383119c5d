using System.Buffers.Binary;
using System.Globalization;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Testing;

/// <summary>Lists of objects as messages on the wire.</summary>
public static class CapabilityMessage
{
    /// <summary>Objects as 32-bit words in hexadecimal, apart by spaces.</summary>
    public static uint[] Words(string text) =>
    [
        .. text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(word => word == "0"
            ? 0
            : uint.Parse(word.Replace("0x", "", StringComparison.Ordinal), NumberStyles.HexNumber, CultureInfo.InvariantCulture)),
    ];

    /// <summary>The bytes of a message with these objects.</summary>
    public static byte[] Bytes(MessageKind kind, int revision, uint[] objects)
    {
        bool epr = kind == MessageKind.EPRSourceCapabilities || kind == MessageKind.EPRSinkCapabilities;
        bool sink = kind == MessageKind.SinkCapabilities || kind == MessageKind.EPRSinkCapabilities;
        int extra = epr ? 4 : 2;
        byte[] message = new byte[extra + (4 * objects.Length)];
        MessageHeader header = MessageHeader.Create(kind, epr ? 0 : Math.Min(objects.Length, 7), 0, !sink, !sink, revision);
        BinaryPrimitives.WriteUInt16LittleEndian(message, header.Raw);
        if (epr)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(
                message.AsSpan(2), ExtendedHeader.Create(false, 0, false, 4 * objects.Length).Raw);
        }

        for (int index = 0; index < objects.Length; index++)
        {
            BinaryPrimitives.WriteUInt32LittleEndian(message.AsSpan(extra + (4 * index)), objects[index]);
        }

        return message;
    }
}
