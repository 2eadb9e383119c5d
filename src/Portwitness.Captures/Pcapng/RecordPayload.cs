using System.Buffers;
using System.Buffers.Binary;
using System.Text;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Pcapng;

/// <summary>What kind of record a payload holds.</summary>
internal enum RecordKind : byte
{
    Message = 1,
    Signal = 2,
    Measurement = 3,
    Event = 4,
    BrokenFrame = 5,
}

/// <summary>The layout of a record's bytes, version 1, as captures/FORMAT.md defines it, and its writing.</summary>
internal static class RecordPayload
{
    public const byte Version = 1;

    /// <summary>Version, kind, detail, flags.</summary>
    public const int PrefixBytes = 4;

    public const byte HasMembers = 0x80;

    // Of a message.
    public const byte HasCrc = 0x01;
    public const byte SaysCrcOk = 0x02;
    public const byte CrcIsOk = 0x04;
    public const byte HasKnown = 0x08;
    public const byte HasQuality = 0x10;
    public const int MessageStart = PrefixBytes + 2;

    // Of a signal.
    public const byte SignalHasQuality = 0x01;

    // Of a measurement.
    public const byte HasVoltage = 0x01;
    public const byte HasCurrent = 0x02;
    public const int MeasurementBytes = PrefixBytes + 8;

    // Of an event.
    public const byte HasPort = 0x01;
    public const byte HasValue = 0x02;

    public static void Write(IBufferWriter<byte> output, in MessageRecord message)
    {
        int length = message.Bytes.Length;
        if (length is < CaptureLimits.MinimumMessageBytes or > CaptureLimits.MaximumMessageBytes
            || (!message.Known.IsEmpty && message.Known.Length != length))
        {
            throw new ArgumentException("A message has 2 to 1024 bytes, and a mask of known bits as many.", nameof(message));
        }

        int flags = (message.Crc is null ? 0 : HasCrc) | (message.Known.IsEmpty ? 0 : HasKnown)
            | (message.CrcOk is null ? 0 : SaysCrcOk) | (message.CrcOk == true ? CrcIsOk : 0)
            | (message.Quality.IsStated ? HasQuality : 0);
        int size = MessageStart + length + message.Known.Length + (message.Crc is null ? 0 : MessageCrc.Length);
        Span<byte> bytes = output.GetSpan(size);
        Begin(bytes, RecordKind.Message, (byte)message.Sop, flags, message.Extra);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes[PrefixBytes..], (ushort)length);
        message.Bytes.CopyTo(bytes[MessageStart..]);
        message.Known.CopyTo(bytes[(MessageStart + length)..]);
        if (message.Crc is uint crc)
        {
            BinaryPrimitives.WriteUInt32LittleEndian(bytes[(size - MessageCrc.Length)..], crc);
        }

        output.Advance(size);
        if (message.Quality.IsStated)
        {
            FramePayload.Write(output, message.Quality);
        }

        output.Write(message.Extra);
    }

    public static void Write(IBufferWriter<byte> output, SignalRecord signal)
    {
        byte[] members = Members(signal.Extra);
        Span<byte> bytes = output.GetSpan(PrefixBytes);
        Begin(bytes, RecordKind.Signal, (byte)signal.Kind, signal.Quality.IsStated ? SignalHasQuality : 0, members);
        output.Advance(PrefixBytes);
        if (signal.Quality.IsStated)
        {
            FramePayload.Write(output, signal.Quality);
        }

        output.Write(members);
    }

    public static void Write(IBufferWriter<byte> output, MeasurementRecord measurement)
    {
        int flags = (measurement.VbusMillivolts is null ? 0 : HasVoltage) | (measurement.IbusMilliamperes is null ? 0 : HasCurrent);
        byte[] members = Members(measurement.Extra);
        Span<byte> bytes = output.GetSpan(MeasurementBytes);
        Begin(bytes, RecordKind.Measurement, 0, flags, members);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[PrefixBytes..], measurement.VbusMillivolts ?? 0);
        BinaryPrimitives.WriteInt32LittleEndian(bytes[(PrefixBytes + 4)..], measurement.IbusMilliamperes ?? 0);
        output.Advance(MeasurementBytes);
        output.Write(members);
    }

    public static void Write(IBufferWriter<byte> output, EventRecord happened)
    {
        byte[] members = Members(happened.Extra);
        Span<byte> bytes = output.GetSpan(PrefixBytes);
        int flags = (happened.Port is null ? 0 : HasPort) | (happened.Value is null ? 0 : HasValue);
        Begin(bytes, RecordKind.Event, 0, flags, members);
        output.Advance(PrefixBytes);
        WriteText(output, happened.Name);
        WriteText(output, happened.Port);
        WriteText(output, happened.Value);
        output.Write(members);
    }

    private static void Begin(Span<byte> bytes, RecordKind kind, byte detail, int flags, ReadOnlySpan<byte> members)
    {
        bytes[0] = Version;
        bytes[1] = (byte)kind;
        bytes[2] = detail;
        bytes[3] = (byte)(members.IsEmpty ? flags : flags | HasMembers);
    }

    private static byte[] Members(string? extra) => extra is null ? [] : Encoding.UTF8.GetBytes(extra);

    private static void WriteText(IBufferWriter<byte> output, string? text)
    {
        if (text is null)
        {
            return;
        }

        int length = Encoding.UTF8.GetByteCount(text);
        if (length > ushort.MaxValue)
        {
            throw new ArgumentException("A text of an event has at most 65535 bytes.", nameof(text));
        }

        Span<byte> bytes = output.GetSpan(2 + length);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)length);
        Encoding.UTF8.GetBytes(text, bytes[2..]);
        output.Advance(2 + length);
    }
}
