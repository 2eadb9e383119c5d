using System.Buffers.Binary;
using System.Text.Json;
using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.JsonLines;

/// <summary>What one record line states. It is read over and over into the same place, so that reading allocates nothing.</summary>
internal sealed partial class RecordLine(FaultLog faults) : ObjectLine(
    faults, "t", "sop", "hex", "known", "crc", "crc_ok", "signal", "vbus_mv", "ibus_ma", "event", "rp", "line", "port", "value",
    "broke", "bit", "broke_at", "part", "bit_rate", "bit_rate_pm", "drift_ppm", "jitter_ns", "preamble_bits", "set_symbols", "glitches")
{
    private const int TimeMember = 0;
    private const int SopMember = 1;
    private const int HexMember = 2;
    private const int KnownMember = 3;
    private const int CrcMember = 4;
    private const int CrcOkMember = 5;
    private const int SignalMember = 6;
    private const int VbusMember = 7;
    private const int IbusMember = 8;
    private const int EventMember = 9;
    private const int RpMember = 10;
    private const int DataLineMember = 11;
    private const int PortMember = 12;
    private const int ValueMember = 13;

    private static readonly (byte[] Text, SopKind Kind)[] Sops =
        [.. Enum.GetValues<SopKind>().Select(kind => (System.Text.Encoding.UTF8.GetBytes(kind.ToText()), kind))];

    private readonly byte[] _bytes = new byte[CaptureLimits.MaximumMessageBytes];
    private readonly byte[] _known = new byte[CaptureLimits.MaximumMessageBytes];
    private int _length;
    private int _knownLength;
    private long _knownColumn;
    private SopKind? _sop;

    /// <summary>The header names several ports, so that "port" says of which one any record is.</summary>
    public bool OfSeveralPorts { get; set; }

    /// <summary>Null when it cannot be used; that was reported.</summary>
    public long? TimeUs { get; private set; }

    /// <summary>Whether a whole message is there.</summary>
    public bool HasMessage { get; private set; }

    public SopKind Sop => _sop.GetValueOrDefault();

    public ReadOnlySpan<byte> Bytes => _bytes.AsSpan(0, _length);

    public ReadOnlySpan<byte> Known => _known.AsSpan(0, _knownLength);

    public uint? Crc { get; private set; }

    public bool? CrcOk { get; private set; }

    public SignalKind? Signal { get; private set; }

    public int? VbusMillivolts { get; private set; }

    public int? IbusMilliamperes { get; private set; }

    public string? Event { get; private set; }

    public string? Rp { get; private set; }

    public string? DataLine { get; private set; }

    public string? Port { get; private set; }

    public string? Value { get; private set; }

    /// <summary>Reads a line; false when nothing of it can be used, which was reported.</summary>
    public bool Parse(long line, ReadOnlySpan<byte> text)
    {
        (_length, _knownLength, _sop, TimeUs, Crc, CrcOk) = (0, 0, null, null, null, null);
        (Signal, VbusMillivolts, IbusMilliamperes) = (null, null, null);
        (Event, Rp, DataLine, Port, Value) = (null, null, null, null, null);
        BeginFrame();
        if (!ParseObject(line, text))
        {
            return false;
        }

        bool hasEvent = Has(EventMember) || Has(RpMember) || Has(DataLineMember);
        if (!hasEvent && !Has(HexMember) && !Has(SignalMember) && !Has(VbusMember) && !Has(IbusMember)
            && !Has(BrokeMember))
        {
            Report(1, FaultCodes.RecordUnknown, FaultText.RecordUnknown);
            return false;
        }

        if (!Has(TimeMember))
        {
            Report(1, FaultCodes.TimeInvalid, FaultText.TimeMissing);
        }

        HasMessage = Has(HexMember) && CheckMessage();
        KeepStrays(text, hasEvent);
        return true;
    }

    /// <inheritdoc/>
    protected override void ReadValue(int member, ref Utf8JsonReader json)
    {
        switch (member)
        {
            case TimeMember: TakeTime(ref json); break;
            case SopMember: TakeSop(ref json); break;
            case HexMember: TakeHex(ref json); break;
            case KnownMember: TakeKnown(ref json); break;
            case CrcMember: TakeCrc(ref json); break;
            case CrcOkMember: TakeCrcOk(ref json); break;
            case SignalMember: TakeSignal(ref json); break;
            case VbusMember: VbusMillivolts = Measured(ref json, member); break;
            case IbusMember: IbusMilliamperes = Measured(ref json, member); break;
            case EventMember: TakeEvent(ref json); break;
            case RpMember: Rp = Text(ref json, member); break;
            case DataLineMember: DataLine = Text(ref json, member); break;
            case PortMember: Port = Text(ref json, member); break;
            case ValueMember: Value = Text(ref json, member); break;
            default: TakeFrame(ref json, member); break;
        }
    }

    private void TakeTime(ref Utf8JsonReader json)
    {
        if (json.TokenType == JsonTokenType.Number && json.TryGetInt64(out long time)
            && time is >= 0 and <= CaptureLimits.MaximumTimeUs)
        {
            TimeUs = time;
            return;
        }

        Report(json.TokenStartIndex + 1, FaultCodes.TimeInvalid, FaultText.TimeInvalid);
    }

    private void TakeSop(ref Utf8JsonReader json)
    {
        if (json.TokenType == JsonTokenType.String)
        {
            foreach ((byte[] text, SopKind kind) in Sops)
            {
                if (json.ValueTextEquals(text))
                {
                    _sop = kind;
                    return;
                }
            }
        }

        Invalid(
            ref json, SopMember, "\"SOP\", \"SOP'\", \"SOP''\", \"SOP'_Debug\" or \"SOP''_Debug\"", "The message was not read.");
    }

    private void TakeHex(ref Utf8JsonReader json)
    {
        ReadOnlySpan<byte> digits = json.ValueSpan;
        long column = json.TokenStartIndex + 2;
        if (json.TokenType != JsonTokenType.String)
        {
            Report(json.TokenStartIndex + 1, FaultCodes.HexInvalid, FaultText.HexNotText);
        }
        else if (digits.IndexOfAnyExcept(HexText.Digits) is >= 0 and int at)
        {
            Report(column + at, FaultCodes.HexInvalid, FaultText.NotHex(digits[at..]));
        }
        else if (digits.Length % 2 != 0)
        {
            Report(column + digits.Length, FaultCodes.HexInvalid, FaultText.HexOdd);
        }
        else if (digits.Length / 2 is < CaptureLimits.MinimumMessageBytes or > CaptureLimits.MaximumMessageBytes)
        {
            Report(column, FaultCodes.HexLength, FaultText.HexLength);
        }
        else
        {
            Convert.FromHexString(digits, _bytes, out _, out _length);
        }
    }

    private void TakeKnown(ref Utf8JsonReader json)
    {
        ReadOnlySpan<byte> digits = json.ValueSpan;
        _knownColumn = json.TokenStartIndex + 1;
        if (json.TokenType == JsonTokenType.String && digits.Length % 2 == 0 && digits.Length / 2 <= _known.Length
            && !digits.ContainsAnyExcept(HexText.Digits))
        {
            Convert.FromHexString(digits, _known, out _, out _knownLength);
        }
    }

    private void TakeCrc(ref Utf8JsonReader json)
    {
        ReadOnlySpan<byte> digits = json.ValueSpan;
        if (json.TokenType != JsonTokenType.String || digits.Length != 8 || digits.ContainsAnyExcept(HexText.Digits))
        {
            Invalid(ref json, CrcMember, "the four bytes on the wire as 8 hex digits");
            return;
        }

        Span<byte> bytes = stackalloc byte[4];
        Convert.FromHexString(digits, bytes, out _, out _);

        // Sent least significant byte first (R3.2v1.1, 5.6.2).
        Crc = BinaryPrimitives.ReadUInt32LittleEndian(bytes);
    }

    private void TakeCrcOk(ref Utf8JsonReader json)
    {
        if (json.TokenType is JsonTokenType.True or JsonTokenType.False)
        {
            CrcOk = json.GetBoolean();
            return;
        }

        // A message must not count as well received because of a slip of the pen.
        CrcOk = false;
        Invalid(ref json, CrcOkMember, "true or false", "It was taken for false.");
    }

    private void TakeSignal(ref Utf8JsonReader json)
    {
        if (json.TokenType == JsonTokenType.String && json.ValueTextEquals("hard-reset"u8))
        {
            Signal = SignalKind.HardReset;
        }
        else if (json.TokenType == JsonTokenType.String && json.ValueTextEquals("cable-reset"u8))
        {
            Signal = SignalKind.CableReset;
        }
        else
        {
            Invalid(ref json, SignalMember, "\"hard-reset\" or \"cable-reset\"");
        }
    }

    private int? Measured(ref Utf8JsonReader json, int member)
    {
        if (json.TokenType == JsonTokenType.Number && json.TryGetInt32(out int value)
            && value is >= -CaptureLimits.MaximumMeasurement and <= CaptureLimits.MaximumMeasurement)
        {
            return value;
        }

        Invalid(ref json, member, "a whole number from -1000000 to 1000000");
        return null;
    }

    private void TakeEvent(ref Utf8JsonReader json)
    {
        Event = Text(ref json, EventMember);
        if (Event is not null && !CaptureEvents.IsKnown(Event))
        {
            Report(json.TokenStartIndex + 1, FaultCodes.EventUnknown, FaultText.EventUnknown(json.ValueSpan));
        }
    }

    private bool CheckMessage()
    {
        if (!Has(SopMember))
        {
            Report(1, FaultCodes.MemberMissing, FaultText.SopMissing);
        }

        if (_length == 0 || _sop is null)
        {
            return false;
        }

        if (Has(KnownMember) && _knownLength != _length)
        {
            Report(_knownColumn, FaultCodes.KnownInvalid, FaultText.KnownInvalid);
            return false;
        }

        return true;
    }

    /// <summary>Keeps members that mean something only beside another one that is not there.</summary>
    private void KeepStrays(ReadOnlySpan<byte> text, bool hasEvent)
    {
        for (int member = SopMember; !Has(HexMember) && member <= CrcOkMember; member++)
        {
            if (member != SopMember || !Has(BrokeMember))
            {
                KeepAsExtra(member, text);
            }
        }

        KeepFrameStrays(text);

        if (!hasEvent && !OfSeveralPorts)
        {
            KeepAsExtra(PortMember, text);
        }

        if (!Has(EventMember))
        {
            KeepAsExtra(ValueMember, text);
        }

        EndExtra();
    }
}
