using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Portwitness.Captures.Quoted;

/// <summary>What stands in front of a word: "obj0=", "PDO 1: ", "[2] ", "rdo=".</summary>
/// <param name="Index">The number; null when there is none.</param>
/// <param name="IsOfObject">Whether it names an object of a source's list, or only counts; false for any other name.</param>
internal readonly record struct QuotedLabel(int? Index, bool IsOfObject)
{
    private const int MaxDigits = 2;

    private static readonly FrozenSet<string> Names = FrozenSet.ToFrozenSet(
        [
            "", "pdo", "pdos", "apdo", "apdos", "srcpdo", "srcpdos", "sourcepdo", "sourcepdos", "obj", "objs", "object", "objects", "do", "cap", "caps",
            "sourcecap", "sourcecaps", "srccap", "srccaps", "sourcecapabilities", "capabilities", "word", "words", "pos", "position",
            "fixed", "pps", "avs", "battery", "variable",
        ],
        StringComparer.OrdinalIgnoreCase);

    // What else such texts say in words of 32 bits. Behind a colon any other word is prose.
    private static readonly FrozenSet<string> Others = FrozenSet.ToFrozenSet(
        [
            "rdo", "request", "vdo", "vdos", "vdm", "ado", "bdo", "eudo", "sdo", "id", "header", "hdr", "status", "svid", "vid", "pid", "crc", "addr", "address",
            "reg", "register", "flags", "code", "value", "error", "mask", "snkpdo", "sinkpdo", "snkcaps", "sinkcaps",
        ],
        StringComparer.OrdinalIgnoreCase);

    /// <summary>Reads what stands in front of a position; null when nothing does that belongs to what follows.</summary>
    public static QuotedLabel? Before(ReadOnlySpan<byte> text, int position)
    {
        ReadOnlySpan<byte> rest = text[..position].TrimEnd("\"'(` \n"u8);
        ReadOnlySpan<byte> unmarked = rest.TrimEnd(":=-.>)"u8);
        bool isMarked = unmarked.Length < rest.Length;
        ReadOnlySpan<byte> mark = rest[unmarked.Length..];
        bool isNamed = mark.IndexOfAny(":="u8) >= 0;
        rest = unmarked.TrimEnd(" \n"u8);
        bool isBracketed = rest.EndsWith("]"u8);
        rest = isBracketed ? rest[..^1].TrimEnd((byte)' ') : rest;

        ReadOnlySpan<byte> digits = rest[EndOf(rest, static letter => char.IsAsciiDigit((char)letter))..];
        rest = rest[..^digits.Length];
        if (isBracketed)
        {
            rest = rest.TrimEnd((byte)' ');
            if (!rest.EndsWith("["u8))
            {
                return null;
            }

            rest = rest[..^1];
        }

        rest = digits.IsEmpty ? rest : rest.TrimEnd(" #-("u8);
        ReadOnlySpan<byte> name = rest[EndOf(rest, static letter => char.IsAsciiLetter((char)letter) || letter == '_')..];
        bool isUnit = name.Length < rest.Length && char.IsAsciiDigit((char)rest[rest.Length - name.Length - 1]);
        if (isUnit || digits.Length > MaxDigits || (digits.IsEmpty ? !isNamed || name.IsEmpty : !isMarked && !isBracketed && name.IsEmpty))
        {
            return null;
        }

        string plain = Encoding.ASCII.GetString(name).Replace("_", "", StringComparison.Ordinal);
        if (digits.IsEmpty && !mark.Contains((byte)'=') && !Names.Contains(plain) && !Others.Contains(plain))
        {
            return null;
        }

        return new QuotedLabel(digits.IsEmpty ? null : int.Parse(digits, NumberStyles.None, CultureInfo.InvariantCulture), Names.Contains(plain));
    }

    private static int EndOf(ReadOnlySpan<byte> text, Func<byte, bool> belongs)
    {
        int at = text.Length;
        while (at > 0 && belongs(text[at - 1]))
        {
            at--;
        }

        return at;
    }
}
