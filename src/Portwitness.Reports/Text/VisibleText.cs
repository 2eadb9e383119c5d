using System.Globalization;
using System.Text;

namespace Portwitness.Reports.Text;

/// <summary>
/// Text from labels, file names and captures, made safe to print: whatever a terminal would obey, or would show in
/// another order than it is written, is spelled out as \u001b.
/// </summary>
public static class VisibleText
{
    /// <summary>One line of text without anything that a terminal obeys; tabs become spaces.</summary>
    public static string Of(string text)
    {
        StringBuilder? visible = null;
        int index = 0;
        while (index < text.Length)
        {
            bool whole = Rune.TryGetRuneAt(text, index, out Rune rune);
            int length = whole ? rune.Utf16SequenceLength : 1;
            if (whole && !IsUnsafe(rune))
            {
                visible?.Append(text, index, length);
            }
            else
            {
                visible ??= new StringBuilder(text, 0, index, text.Length + 16);
                visible.Append(whole && rune.Value == '\t' ? " " : Spelled(whole ? rune.Value : text[index]));
            }

            index += length;
        }

        return visible?.ToString() ?? text;
    }

    /// <summary>Columns that a terminal needs; ideographs and their like need two, combining marks none.</summary>
    public static int Columns(string text)
    {
        int columns = 0;
        foreach (Rune rune in text.EnumerateRunes())
        {
            columns += Rune.GetUnicodeCategory(rune) is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark ? 0
                : IsWide(rune.Value) ? 2
                : 1;
        }

        return columns;
    }

    private static bool IsUnsafe(Rune rune) => Rune.GetUnicodeCategory(rune)
        is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator
        or UnicodeCategory.ParagraphSeparator or UnicodeCategory.OtherNotAssigned;

    private static string Spelled(int code) => code > 0xFFFF
        ? string.Create(CultureInfo.InvariantCulture, $"\\U{code:x8}")
        : string.Create(CultureInfo.InvariantCulture, $"\\u{code:x4}");

    // Unicode Standard Annex 11, East Asian Width, the blocks that are wide throughout.
    private static bool IsWide(int code) => code
        is >= 0x1100 and <= 0x115F or >= 0x2E80 and <= 0x303E or >= 0x3041 and <= 0xA4CF or >= 0xAC00 and <= 0xD7A3
        or >= 0xF900 and <= 0xFAFF or >= 0xFE30 and <= 0xFE6F or >= 0xFF00 and <= 0xFF60 or >= 0xFFE0 and <= 0xFFE6
        or >= 0x1F300 and <= 0x1F64F or >= 0x1F900 and <= 0x1F9FF or >= 0x20000 and <= 0x3FFFD;
}
