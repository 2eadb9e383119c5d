namespace Portwitness.Captures.Input;

/// <summary>Lines as mails carry them (RFC 2045, 6.7): "=3D" for "=", "=20" at the end of a line, and "=" where a line goes on in the next.</summary>
internal static class QuotedPrintable
{
    private const int DigitsOfWord = 8;

    /// <summary>Whether a line goes on in the next.</summary>
    public static bool GoesOn(ReadOnlySpan<byte> line) => line.EndsWith("="u8);

    /// <summary>Whether a line is one of such a mail.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> line)
    {
        line = line.TrimEnd("\r"u8);
        return GoesOn(line) || line.EndsWith("=20"u8) || line.IndexOf("=3D0x"u8) >= 0 || line.IndexOf("=C2=A0"u8) >= 0
            || line.IndexOf("quoted-printable"u8) >= 0;
    }

    /// <summary>The line with its escapes taken out. "=" in front of a word of eight digits is none.</summary>
    public static byte[] Decode(ReadOnlySpan<byte> line)
    {
        List<byte> decoded = new(line.Length);
        for (int at = 0; at < line.Length;)
        {
            if (line[at] == '=' && at + 2 < line.Length && IsDigit(line[at + 1]) && IsDigit(line[at + 2]) && !BeginsWord(line[(at + 1)..]))
            {
                decoded.Add((byte)((Value(line[at + 1]) << 4) | Value(line[at + 2])));
                at += 3;
            }
            else
            {
                decoded.Add(line[at++]);
            }
        }

        return [.. decoded];
    }

    /// <summary>Whether a word of 32 bits stands at the beginning.</summary>
    public static bool BeginsWord(ReadOnlySpan<byte> text)
    {
        if (text.StartsWith("0x"u8) || text.StartsWith("0X"u8))
        {
            return true;
        }

        int length = text.IndexOfAnyExcept(HexText.Digits);
        return (length < 0 ? text.Length : length) == DigitsOfWord;
    }

    // Escapes are written in capitals.
    private static bool IsDigit(byte letter) => letter is >= (byte)'0' and <= (byte)'9' or >= (byte)'A' and <= (byte)'F';

    private static int Value(byte digit) => digit <= '9' ? digit - '0' : digit - 'A' + 10;
}
