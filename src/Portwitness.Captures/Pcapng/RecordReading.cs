using System.Buffers.Binary;
using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Pcapng;

/// <summary>Takes a record's bytes apart and hands it on; what cannot be used is reported.</summary>
internal sealed class RecordReading(ICaptureSink sink, FaultLog faults)
{
    /// <summary>Reads one record.</summary>
    /// <param name="payload">Its bytes, from anywhere: nothing in them is believed.</param>
    /// <param name="timeUs">Its time.</param>
    /// <param name="line">Number of the record, for those who look it up.</param>
    /// <param name="offset">Where it begins in the file.</param>
    public void Read(ReadOnlySpan<byte> payload, long timeUs, long line, long offset)
    {
        if (payload.Length < RecordPayload.PrefixBytes)
        {
            faults.Report(line, 0, FaultCodes.RecordInvalid, FaultText.RecordTooShort(offset));
            return;
        }

        if (payload[0] != RecordPayload.Version)
        {
            faults.Report(line, 0, FaultCodes.RecordVersion, FaultText.RecordVersion(offset, payload[0]));
            return;
        }

        bool read = (RecordKind)payload[1] switch
        {
            RecordKind.Message => Message(payload, timeUs, line, offset),
            RecordKind.Signal => Signal(payload, timeUs, line, offset),
            RecordKind.Measurement => Measurement(payload, timeUs, line, offset),
            RecordKind.Event => Event(payload, timeUs, line, offset),
            RecordKind.BrokenFrame => BrokenFrame(payload, timeUs, line, offset),
            _ => Unknown(payload[1], line, offset),
        };
        if (!read)
        {
            faults.Report(line, 0, FaultCodes.RecordInvalid, FaultText.RecordInvalid(offset));
        }
    }

    private bool Unknown(byte kind, long line, long offset)
    {
        faults.Report(line, 0, FaultCodes.RecordUnknown, FaultText.RecordKindUnknown(offset, kind));
        return true;
    }

    private bool Message(ReadOnlySpan<byte> payload, long timeUs, long line, long offset)
    {
        const int allFlags = RecordPayload.HasMembers | RecordPayload.HasCrc | RecordPayload.SaysCrcOk
            | RecordPayload.CrcIsOk | RecordPayload.HasKnown | RecordPayload.HasQuality;
        byte flags = payload[3];
        if (payload.Length < RecordPayload.MessageStart || payload[2] > (byte)SopKind.SopDoublePrimeDebug || (flags & ~allFlags) != 0)
        {
            return false;
        }

        int length = BinaryPrimitives.ReadUInt16LittleEndian(payload[RecordPayload.PrefixBytes..]);
        int known = (flags & RecordPayload.HasKnown) != 0 ? length : 0;
        int crc = (flags & RecordPayload.HasCrc) != 0 ? MessageCrc.Length : 0;
        ReadOnlySpan<byte> rest = payload[RecordPayload.MessageStart..];
        if (length is < CaptureLimits.MinimumMessageBytes or > CaptureLimits.MaximumMessageBytes
            || rest.Length < length + known + crc)
        {
            return false;
        }

        ReadOnlySpan<byte> behind = rest[(length + known + crc)..];
        if (!FramePayload.TryTake(ref behind, (flags & RecordPayload.HasQuality) != 0, out FrameQuality quality)
            || !Members(behind, flags, line, offset, out ReadOnlySpan<byte> members))
        {
            return false;
        }

        sink.OnMessage(new MessageRecord
        {
            TimeUs = timeUs,
            Line = line,
            Sop = (SopKind)payload[2],
            Bytes = rest[..length],
            Known = rest.Slice(length, known),
            Crc = crc == 0 ? null : BinaryPrimitives.ReadUInt32LittleEndian(rest[(length + known)..]),
            CrcOk = (flags & RecordPayload.SaysCrcOk) == 0 ? null : (flags & RecordPayload.CrcIsOk) != 0,
            Quality = quality,
            Extra = members,
        });
        return true;
    }

    private bool BrokenFrame(ReadOnlySpan<byte> payload, long timeUs, long line, long offset)
    {
        if (FramePayload.ReadBroken(payload, timeUs, line, out ReadOnlySpan<byte> rest) is not { } frame
            || !Members(rest, payload[3], line, offset, out ReadOnlySpan<byte> members))
        {
            return false;
        }

        sink.OnBrokenFrame(frame with { Extra = Text(members) });
        return true;
    }

    private bool Signal(ReadOnlySpan<byte> payload, long timeUs, long line, long offset)
    {
        ReadOnlySpan<byte> rest = payload[RecordPayload.PrefixBytes..];
        byte flags = payload[3];
        if (payload[2] > (byte)SignalKind.CableReset || (flags & ~(RecordPayload.HasMembers | RecordPayload.SignalHasQuality)) != 0
            || !FramePayload.TryTake(ref rest, (flags & RecordPayload.SignalHasQuality) != 0, out FrameQuality quality)
            || !Members(rest, flags, line, offset, out ReadOnlySpan<byte> members))
        {
            return false;
        }

        sink.OnSignal(new SignalRecord(timeUs, line, (SignalKind)payload[2]) { Quality = quality, Extra = Text(members) });
        return true;
    }

    private bool Measurement(ReadOnlySpan<byte> payload, long timeUs, long line, long offset)
    {
        byte flags = payload[3];
        if (payload.Length < RecordPayload.MeasurementBytes || payload[2] != 0
            || (flags & ~(RecordPayload.HasMembers | RecordPayload.HasVoltage | RecordPayload.HasCurrent)) != 0
            || !Members(payload[RecordPayload.MeasurementBytes..], flags, line, offset, out ReadOnlySpan<byte> members))
        {
            return false;
        }

        int? voltage = (flags & RecordPayload.HasVoltage) == 0 ? null : BinaryPrimitives.ReadInt32LittleEndian(payload[4..]);
        int? current = (flags & RecordPayload.HasCurrent) == 0 ? null : BinaryPrimitives.ReadInt32LittleEndian(payload[8..]);
        if (IsBeyond(voltage) || IsBeyond(current))
        {
            return false;
        }

        sink.OnMeasurement(new MeasurementRecord(timeUs, line, voltage, current) { Extra = Text(members) });
        return true;
    }

    private bool Event(ReadOnlySpan<byte> payload, long timeUs, long line, long offset)
    {
        byte flags = payload[3];
        ReadOnlySpan<byte> rest = payload[RecordPayload.PrefixBytes..];
        if (payload[2] != 0 || (flags & ~(RecordPayload.HasMembers | RecordPayload.HasPort | RecordPayload.HasValue)) != 0
            || !TakeText(ref rest, true, out string? name) || name is not { Length: > 0 }
            || !TakeText(ref rest, (flags & RecordPayload.HasPort) != 0, out string? port)
            || !TakeText(ref rest, (flags & RecordPayload.HasValue) != 0, out string? value)
            || !Members(rest, flags, line, offset, out ReadOnlySpan<byte> members))
        {
            return false;
        }

        if (!CaptureEvents.IsKnown(name))
        {
            faults.Report(line, 0, FaultCodes.EventUnknown, FaultText.EventUnknown(Encoding.UTF8.GetBytes(name)));
        }

        sink.OnEvent(new EventRecord(timeUs, line, name, port, value) { Extra = Text(members) });
        return true;
    }

    private static bool IsBeyond(int? measured) =>
        measured is < -CaptureLimits.MaximumMeasurement or > CaptureLimits.MaximumMeasurement;

    private static bool TakeText(ref ReadOnlySpan<byte> rest, bool isThere, out string? text)
    {
        text = null;
        if (!isThere)
        {
            return true;
        }

        if (rest.Length < 2 || BinaryPrimitives.ReadUInt16LittleEndian(rest) is var length && rest.Length < 2 + length
            || !Utf8.IsValid(rest.Slice(2, length)))
        {
            return false;
        }

        text = Encoding.UTF8.GetString(rest.Slice(2, length));
        rest = rest[(2 + length)..];
        return true;
    }

    // Members that are no JSON object on one line would spoil what they are written to; the record is good without them.
    private bool Members(ReadOnlySpan<byte> rest, byte flags, long line, long offset, out ReadOnlySpan<byte> members)
    {
        members = rest;
        if ((flags & RecordPayload.HasMembers) == 0)
        {
            return rest.IsEmpty;
        }

        if (!IsObject(rest))
        {
            members = [];
            faults.Report(line, 0, FaultCodes.MemberInvalid, FaultText.MembersInvalid(offset));
        }

        return true;
    }

    private static bool IsObject(ReadOnlySpan<byte> text)
    {
        if (text.ContainsAnyInRange((byte)0, (byte)0x1F) || !Utf8.IsValid(text) || text.IsEmpty)
        {
            return false;
        }

        Utf8JsonReader json = new(text);
        try
        {
            bool isObject = json.Read() && json.TokenType == JsonTokenType.StartObject;
            while (isObject && json.Read())
            {
                _ = json.TokenType is JsonTokenType.PropertyName or JsonTokenType.String ? json.GetString() : null;
            }

            return isObject;
        }
        catch (Exception broken) when (broken is JsonException or InvalidOperationException)
        {
            return false;
        }
    }

    private static string? Text(ReadOnlySpan<byte> members) => members.IsEmpty ? null : Encoding.UTF8.GetString(members);
}
