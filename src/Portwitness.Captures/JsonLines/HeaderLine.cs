using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.JsonLines;

/// <summary>What the header line states.</summary>
internal sealed partial class HeaderLine(FaultLog faults) : ObjectLine(faults, Members)
{
    private static readonly string[] Members =
    [
        "capture", "port", "in_use", "attach_order", "started", "product", "sample", "cable", "edition", "converted_from", "time_of",
        "resolution_us", "records_sop", "measured_at", "accuracy", "ports",
        "current_rounding_ma", "lists_may_be_cut", "lists_unchecked",
    ];

    private static readonly string[] CableMembers = ["kind", "current_a", "epr"];

    private CaptureHeader _header = new() { Format = "capture" };

    /// <summary>Whether the version is the one that is known here; if not, that was reported.</summary>
    public bool IsVersionKnown { get; private set; }

    /// <summary>Whether a line is a header: an object with a member "capture".</summary>
    public static bool Is(ReadOnlySpan<byte> text)
    {
        if (text.IndexOf("\"capture\""u8) < 0)
        {
            return false;
        }

        Utf8JsonReader json = new(text);
        try
        {
            json.Read();
            while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
            {
                if (json.ValueTextEquals("capture"u8))
                {
                    return true;
                }

                json.Skip();
            }
        }
        catch (Exception broken) when (broken is JsonException or InvalidOperationException)
        {
            // Reported when the line is read as a record.
        }

        return false;
    }

    /// <summary>Reads the header; what cannot be used was reported and is not stated.</summary>
    public CaptureHeader Parse(long line, ReadOnlySpan<byte> text)
    {
        IsVersionKnown = true;
        if (!ParseObject(line, text))
        {
            return new CaptureHeader { Format = "capture" };
        }

        EndExtra();
        return Extra.IsEmpty ? _header : _header with { Extra = Encoding.UTF8.GetString(Extra) };
    }

    /// <inheritdoc/>
    protected override void Unknown(ReadOnlySpan<byte> name, int column) => Unknown(name, column, "a capture's header", Members);

    /// <inheritdoc/>
    protected override void ReadValue(int member, ref Utf8JsonReader json) => _header = member switch
    {
        0 => TakeVersion(ref json),
        1 => _header with { Port = Text(ref json, member) },
        2 => _header with { InUse = Ports(ref json, member) },
        3 => _header with { AttachOrder = Ports(ref json, member) },
        4 => _header with { Started = Started(ref json, member) },
        5 => _header with { Product = Text(ref json, member) },
        6 => _header with { Sample = Text(ref json, member) },
        7 => _header with { Cable = Cable(ref json, member) },
        8 => _header with { Edition = Edition(ref json, member) },
        9 => _header with { ConvertedFrom = Text(ref json, member) },
        10 => _header with { TimeOf = TimeOf(ref json, member) },
        11 => _header with { ResolutionUs = WholeNumber(ref json, member, 1_000_000, "microseconds") },
        12 => _header with { RecordsSop = SopKindList(ref json, member) },
        13 => _header with { MeasuredAt = MeasuredAt(ref json, member) },
        14 => _header with { Accuracy = Accuracy(ref json, member) },
        15 => _header with { Ports = Ports(ref json, member) },
        16 => _header with { CurrentRoundingMilliamperes = WholeNumber(ref json, member, 1_000, "milliamperes") },
        17 => _header with { ListsMayBeCut = Flag(ref json, member) },
        _ => _header with { ListsUnchecked = Flag(ref json, member) },
    };

    private void Unknown(ReadOnlySpan<byte> name, int column, string owner, string[] known) =>
        Report(column, FaultCodes.HeaderMemberUnknown, FaultText.HeaderMemberUnknown(Encoding.UTF8.GetString(name), owner, known));

    private CaptureHeader TakeVersion(ref Utf8JsonReader json)
    {
        if (json.TokenType != JsonTokenType.Number)
        {
            Invalid(ref json, 0, "the number 1", "It was taken for 1.");
        }
        else if (!json.TryGetInt32(out int version) || version != 1)
        {
            IsVersionKnown = false;
            Report(json.TokenStartIndex + 1, FaultCodes.HeaderVersion, FaultText.HeaderVersion(json.ValueSpan));
        }

        return _header;
    }

    private ImmutableArray<string> Ports(ref Utf8JsonReader json, int member)
    {
        const string expected = "a list of port names, for example [\"C1\",\"C2\"]";
        if (json.TokenType != JsonTokenType.StartArray)
        {
            Invalid(ref json, member, expected);
            return [];
        }

        ImmutableArray<string>.Builder ports = ImmutableArray.CreateBuilder<string>();
        bool usable = true;
        while (json.Read() && json.TokenType != JsonTokenType.EndArray)
        {
            if (json.TokenType == JsonTokenType.String)
            {
                ports.Add(json.GetString()!);
                continue;
            }

            // Half a list would be another arrangement.
            Invalid(ref json, member, expected);
            usable = false;
            json.Skip();
        }

        return usable ? ports.DrainToImmutable() : [];
    }

    private DateTimeOffset? Started(ref Utf8JsonReader json, int member)
    {
        if (json.TokenType == JsonTokenType.String && json.TryGetDateTimeOffset(out DateTimeOffset started)
            && StatesOffset(json.ValueSpan))
        {
            return started;
        }

        Invalid(ref json, member, "a date and time with its offset, for example \"2026-03-02T09:14:07Z\"");
        return null;
    }

    private static bool StatesOffset(ReadOnlySpan<byte> time) =>
        time.Length > 6 && time.Contains((byte)'T') && (time[^1] == 'Z' || time[^6] is (byte)'+' or (byte)'-');

    private string? Edition(ref Utf8JsonReader json, int member)
    {
        ReadOnlySpan<byte> text = json.ValueSpan;
        if (json.TokenType == JsonTokenType.String && text.Length == 4 && text[0] == 'R' && text[2] == '.'
            && char.IsAsciiDigit((char)text[1]) && char.IsAsciiDigit((char)text[3]))
        {
            return Encoding.UTF8.GetString(text);
        }

        Invalid(ref json, member, "an edition of the standard, for example \"R3.2\"");
        return null;
    }

    private CaptureCable? Cable(ref Utf8JsonReader json, int member)
    {
        if (json.TokenType != JsonTokenType.StartObject)
        {
            Invalid(ref json, member, "an object, for example {\"kind\":\"detachable\",\"current_a\":5,\"epr\":false}");
            return null;
        }

        CaptureCable cable = new(null, null, null);
        while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
        {
            cable = CableMember(ref json, cable, member);
            json.Skip();
        }

        return cable;
    }

    private CaptureCable CableMember(ref Utf8JsonReader json, CaptureCable cable, int member)
    {
        bool isKind = json.ValueTextEquals("kind"u8);
        bool isCurrent = json.ValueTextEquals("current_a"u8);
        bool isEpr = json.ValueTextEquals("epr"u8);
        if (!isKind && !isCurrent && !isEpr)
        {
            Unknown(json.ValueSpan, (int)json.TokenStartIndex + 1, "a header's \"cable\"", CableMembers);
        }

        json.Read();
        switch (json.TokenType)
        {
            case JsonTokenType.Null:
                return cable;
            case JsonTokenType.String when isKind && json.ValueTextEquals("captive"u8):
                return cable with { Captive = true };
            case JsonTokenType.String when isKind && json.ValueTextEquals("detachable"u8):
                return cable with { Captive = false };
            case JsonTokenType.Number when isCurrent && json.TryGetInt32(out int amperes) && amperes is 3 or 5:
                return cable with { CurrentMilliamperes = 1000 * amperes };
            case JsonTokenType.True or JsonTokenType.False when isEpr:
                return cable with { Epr = json.GetBoolean() };
        }

        if (isKind || isCurrent || isEpr)
        {
            Invalid(
                ref json, member, isKind ? "\"kind\":\"captive\" or \"detachable\"" : isCurrent ? "\"current_a\":3 or 5" : "\"epr\":true or false");
        }

        return cable;
    }
}
