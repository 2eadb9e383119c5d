using System.Buffers;
using System.Text.Json;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.JsonLines;

/// <summary>
/// Goes through the members of one line's object: hands on those with a name it knows, once each, and keeps the
/// others as they stand. Null is the same as not there.
/// </summary>
internal abstract class ObjectLine(FaultLog faults, params string[] names)
{
    private readonly byte[][] _names = [.. names.Select(System.Text.Encoding.UTF8.GetBytes)];
    private readonly Range[] _places = new Range[names.Length];
    private readonly ArrayBufferWriter<byte> _extra = new();
    private uint _seen;
    private uint _stated;

    /// <summary>The line's number.</summary>
    protected long Line { get; private set; }

    /// <summary>Members without a meaning here, as an object; empty when there were none.</summary>
    public ReadOnlySpan<byte> Extra => _extra.WrittenSpan;

    /// <summary>Reads the line; false, with a fault, when it is no JSON object.</summary>
    protected bool ParseObject(long line, ReadOnlySpan<byte> text)
    {
        Line = line;
        _seen = 0;
        _stated = 0;
        _extra.ResetWrittenCount();
        Utf8JsonReader json = new(text);
        try
        {
            if (!json.Read() || json.TokenType != JsonTokenType.StartObject)
            {
                faults.Report(line, json.TokenStartIndex + 1, FaultCodes.JsonInvalid, FaultText.NotAnObject);
                return false;
            }

            while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
            {
                ReadMember(ref json, text);
            }

            json.Read();
            return true;
        }
        catch (JsonException broken)
        {
            int at = (int)(broken.BytePositionInLine ?? 0);
            faults.Report(line, at + 1, FaultCodes.JsonInvalid, FaultText.JsonInvalid(text, at));
        }
        catch (InvalidOperationException)
        {
            // The library's word for an escape that names half a surrogate pair.
            faults.Report(line, json.TokenStartIndex + 1, FaultCodes.JsonInvalid, FaultText.BrokenEscape);
        }

        return false;
    }

    /// <summary>Whether the member is there and not null.</summary>
    protected bool Has(int member) => (_stated & (1u << member)) != 0;

    /// <summary>Takes the value that the reader stands on.</summary>
    protected abstract void ReadValue(int member, ref Utf8JsonReader json);

    /// <summary>Told of a member with another name, as it stands; it is kept whatever this does.</summary>
    protected virtual void Unknown(ReadOnlySpan<byte> name, int column)
    {
    }

    /// <summary>Keeps a member that turned out to have no meaning in this line.</summary>
    protected void KeepAsExtra(int member, ReadOnlySpan<byte> text)
    {
        if (Has(member))
        {
            AddExtra(text[_places[member]]);
        }
    }

    /// <summary>Closes <see cref="Extra"/>; to be called when no more is added.</summary>
    protected void EndExtra()
    {
        if (_extra.WrittenCount > 0)
        {
            _extra.Write("}"u8);
        }
    }

    /// <summary>Reports the value that the reader stands on.</summary>
    protected void Invalid(ref Utf8JsonReader json, int member, string expected, string done = "It was left out.") =>
        Report(json.TokenStartIndex + 1, FaultCodes.MemberInvalid, FaultText.MemberInvalid(
            System.Text.Encoding.UTF8.GetString(_names[member]), Shown(ref json), expected, done));

    protected void Report(long column, string code, string detail) => faults.Report(Line, column, code, detail);

    /// <summary>The raw text of a scalar, or the bracket of what is none.</summary>
    protected static ReadOnlySpan<byte> Shown(ref Utf8JsonReader json) => json.ValueSpan;

    /// <summary>A text, or null with a fault.</summary>
    protected string? Text(ref Utf8JsonReader json, int member)
    {
        if (json.TokenType == JsonTokenType.String)
        {
            return json.GetString();
        }

        Invalid(ref json, member, "a text");
        return null;
    }

    private void ReadMember(ref Utf8JsonReader json, ReadOnlySpan<byte> text)
    {
        int start = (int)json.TokenStartIndex;
        int member = Find(ref json);
        ReadOnlySpan<byte> name = json.ValueSpan;
        json.Read();
        if (member < 0)
        {
            if (json.TokenType != JsonTokenType.Null)
            {
                Unknown(name, start + 1);
            }

            json.Skip();
            AddExtra(text[start..(int)json.BytesConsumed]);
            return;
        }

        uint bit = 1u << member;
        if ((_seen & bit) != 0)
        {
            faults.Report(Line, start + 1, FaultCodes.MemberRepeated, FaultText.MemberRepeated(name));
        }
        else if (json.TokenType != JsonTokenType.Null)
        {
            _stated |= bit;
            ReadValue(member, ref json);
        }

        _seen |= bit;
        json.Skip();
        if ((_stated & bit) != 0)
        {
            _places[member] = start..(int)json.BytesConsumed;
        }
    }

    private int Find(ref Utf8JsonReader json)
    {
        // Names are plain, as a rule, and then are compared as bytes.
        ReadOnlySpan<byte> plain = json.ValueSpan;
        for (int member = 0; !json.ValueIsEscaped && member < _names.Length; member++)
        {
            if (plain.SequenceEqual(_names[member]))
            {
                return member;
            }
        }

        if (!json.ValueIsEscaped)
        {
            return -1;
        }

        for (int member = 0; member < _names.Length; member++)
        {
            if (json.ValueTextEquals(_names[member]))
            {
                return member;
            }
        }

        return -1;
    }

    private void AddExtra(ReadOnlySpan<byte> member)
    {
        _extra.Write(_extra.WrittenCount == 0 ? "{"u8 : ","u8);
        _extra.Write(member);
    }
}
