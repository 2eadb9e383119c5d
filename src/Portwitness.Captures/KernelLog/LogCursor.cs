using System.Buffers.Text;
using System.Globalization;

namespace Portwitness.Captures.KernelLog;

/// <summary>
/// Walks along one line. What does not match is left where it stands, so that <see cref="Position"/> is the place
/// where the line stops making sense.
/// </summary>
/// <param name="line">The line.</param>
/// <param name="ignoresBlanks">Whether blanks and ends of lines mean nothing, as where a mail or a page moved them.</param>
internal ref struct LogCursor(ReadOnlySpan<byte> line, bool ignoresBlanks = false)
{
    private readonly ReadOnlySpan<byte> _line = line;

    /// <summary>Bytes passed.</summary>
    public int Position { get; private set; }

    /// <summary>What is still to come.</summary>
    public readonly ReadOnlySpan<byte> Rest => _line[Position..];

    /// <summary>Whether the whole line was passed.</summary>
    public readonly bool AtEnd => Position == _line.Length;

    /// <summary>Passes an exact text.</summary>
    public bool Literal(scoped ReadOnlySpan<byte> text)
    {
        if (ignoresBlanks)
        {
            return LooseLiteral(text);
        }

        if (!Rest.StartsWith(text))
        {
            return false;
        }

        Position += text.Length;
        return true;
    }

    /// <summary>Goes back to a place that was passed.</summary>
    public void BackTo(int position) => Position = position;

    /// <summary>Passes spaces and tabs.</summary>
    public void Blanks()
    {
        int text = Rest.IndexOfAnyExcept((byte)' ', (byte)'\t');
        Position += text < 0 ? Rest.Length : text;
    }

    /// <summary>Passes a decimal number of at most nine digits.</summary>
    public bool Number(out int value)
    {
        if (ignoresBlanks)
        {
            LooseBlanks();
        }

        bool read = Utf8Parser.TryParse(Digits(9), out value, out int length) && value >= 0 && char.IsAsciiDigit((char)Rest[0]);
        Position += read ? length : 0;
        return read && !FollowedBy(hexadecimal: false);
    }

    /// <summary>Passes a hexadecimal number of at most eight digits behind "0x".</summary>
    public bool Hex(out uint value)
    {
        value = 0;
        if (!Literal("0x"u8))
        {
            return false;
        }

        int length = 0;
        while (length < Rest.Length && length < 8 && char.IsAsciiHexDigit((char)Rest[length]))
        {
            length++;
        }

        bool read = uint.TryParse(Rest[..length], NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out value);
        Position += length;
        return read && !FollowedBy(hexadecimal: true);
    }

    private bool LooseLiteral(scoped ReadOnlySpan<byte> text)
    {
        int before = Position;
        foreach (byte letter in text)
        {
            if (letter == ' ')
            {
                continue;
            }

            LooseBlanks();
            if (AtEnd || Rest[0] != letter)
            {
                Position = before;
                return false;
            }

            Position++;
        }

        return true;
    }

    private void LooseBlanks() => Position += Math.Max(0, Rest.IndexOfAnyExcept(" \t\n"u8));

    private readonly ReadOnlySpan<byte> Digits(int most) => Rest[..Math.Min(Rest.Length, most)];

    private readonly bool FollowedBy(bool hexadecimal) =>
        !AtEnd && (hexadecimal ? char.IsAsciiHexDigit((char)Rest[0]) : char.IsAsciiDigit((char)Rest[0]));
}
