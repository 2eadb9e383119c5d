using System.Buffers;
using System.Globalization;

namespace Portwitness.Labels;

/// <summary>
/// Characters that a camera or an eye takes for others: a letter within a number, a digit within a port's name, a stroke for the
/// sign of direct current. One is repaired only where what is around it leaves one reading, and every repair is noted.
/// </summary>
/// <remarks>Which characters are confused: common practice, no source.</remarks>
internal static class Misprints
{
    // "USB-Type-C1"; a longer word is no port's, and must not be looked through to its end at each of its parts.
    private const int LongestPortName = 11;

    private static readonly SearchValues<char> LikeDigits = SearchValues.Create("OolISsZB");

    private static readonly SearchValues<char> LikeDirect = SearchValues.Create("_\u2261\u2263\u2630\u2243\u2248\u4E00\u4E8C\u30CB\u30FC");

    private static readonly string[] Units = ["V", "VDC", "VAC", "A", "W", "Hz", "mA", "mW", "mAh", "Wh", "Ah"];

    public static void Repair(FoldedText text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            char before = i > 0 ? text[i - 1] : '\0';
            if (LikeDirect.Contains(text[i]))
            {
                i = Direct(text, i) - 1;
            }
            else if (!Letters.IsLetterOrDigit(before) && before is not ('.' or '_'))
            {
                char c = text[i];
                if (char.IsAsciiDigit(c) || c is 'l' or 'I' or 'S')
                {
                    i = Math.Max(i, Number(text, i) - 1);
                }

                if (c is 'U' or 'u' or 'T' or 't')
                {
                    PortName(text, i);
                }
            }
        }
    }

    // "5V_3A", "5V一3A": a stroke between volts and a number. Returns where the strokes end.
    private static int Direct(FoldedText text, int start)
    {
        int end = start;
        while (LikeDirect.Contains(text[end]))
        {
            end++;
        }

        int before = start > 0 && text[start - 1] == ' ' ? start - 2 : start - 1;
        int behind = text[end] == ' ' ? end + 1 : end;
        if (before > 0 && text[before] is 'V' or 'v' && char.IsAsciiDigit(text[before - 1]) && char.IsAsciiDigit(text[behind]))
        {
            Span<char> sign = stackalloc char[Math.Min(end - start, 8)];
            sign.Fill(Folding.Direct);
            if (sign.Length == end - start)
            {
                text.Replace(start, sign, RepairKind.Sign, start, end);
            }
        }

        return end;
    }

    // Returns where the number ends.
    private static int Number(FoldedText text, int start)
    {
        int end = RunEnd(text, start);
        int digits = 0;
        bool isPlain = true;
        for (int i = start; i < end; i++)
        {
            digits += char.IsAsciiDigit(text[i]) ? 1 : 0;
            isPlain &= !LikeDigits.Contains(text[i]);
        }

        if (isPlain || end - start > 8)
        {
            return end;
        }

        string? unit = UnitAt(text, end);
        int reportEnd = end + (unit?.Length ?? 0);
        if (unit is null && text[end] is '-' or Folding.Dash or '~' or '/')
        {
            // "1OO-240V": the unit stands behind the upper end.
            int upper = RunEnd(text, end + 1);
            unit = upper > end + 1 ? UnitAt(text, upper) : null;
            unit = unit is "V" or "VAC" or "VDC" or "Hz" ? unit : null;
        }

        if (unit is null || !IsClear(text, start, end, digits, unit))
        {
            return end;
        }

        Span<char> number = stackalloc char[8];
        for (int i = start; i < end; i++)
        {
            number[i - start] = ToDigit(text[i]);
        }

        number = number[..(end - start)];
        if (IsSane(number, unit))
        {
            text.Replace(start, number, RepairKind.Characters, start, reportEnd);
        }

        return end;
    }

    // The first character is a digit, or can only be a 1 ("l2V") or the 5 of "SV⎓"; "B" and "Z" are only repaired within.
    private static bool IsClear(FoldedText text, int start, int end, int digits, string unit)
    {
        if (text[start] == 'S')
        {
            int sign = end + unit.Length;
            return unit == "V" && end == start + 1 && text[sign] is Folding.Direct or '=' && !Letters.IsLetter(text[sign + 1]);
        }

        return digits > 0 && (char.IsAsciiDigit(text[start]) || char.IsAsciiDigit(text[start + 1]));
    }

    private static bool IsSane(ReadOnlySpan<char> number, string unit) =>
        decimal.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal value)
        && (number[0] != '0' || number.Length == 1 || number[1] == '.')
        && unit switch
        {
            "V" or "VDC" or "VAC" => value is (> 0 and <= 48) or (>= 100 and <= 240),
            "A" => value is > 0 and <= 10,
            "W" => value is > 0 and <= 300,
            "Hz" => value is 50 or 60,
            _ => value > 0,
        };

    private static int RunEnd(FoldedText text, int start)
    {
        int end = start;
        while (char.IsAsciiDigit(text[end]) || LikeDigits.Contains(text[end])
            || (text[end] == '.' && (char.IsAsciiDigit(text[end + 1]) || LikeDigits.Contains(text[end + 1]))))
        {
            end++;
        }

        return end;
    }

    private static string? UnitAt(FoldedText text, int start)
    {
        string? longest = null;
        foreach (string unit in Units)
        {
            int end = start + unit.Length;
            if (end <= text.Length && text.Slice(start, end).SequenceEqual(unit) && !Letters.IsLetter(text[end]))
            {
                longest = unit;
            }
        }

        return longest;
    }

    private static char ToDigit(char c) => c switch
    {
        'O' or 'o' => '0',
        'l' or 'I' => '1',
        'S' or 's' => '5',
        'Z' => '2',
        'B' => '8',
        _ => c,
    };

    // "U5B-C1", "USB-Cl", "Type-CI".
    private static void PortName(FoldedText text, int start)
    {
        int end = start;
        while (end - start <= LongestPortName
            && (Letters.IsLetterOrDigit(text[end]) || (text[end] == '-' && Letters.IsLetterOrDigit(text[end + 1]))))
        {
            end++;
        }

        if (end - start > LongestPortName)
        {
            return;
        }

        ReadOnlySpan<char> word = text.Slice(start, end);
        if (word.Length is >= 3 and <= 8 && word[..3].Equals("U5B", StringComparison.OrdinalIgnoreCase)
            && (word.Length == 3 || word[3] == '-'))
        {
            text.Replace(start + 1, "S", RepairKind.Characters, start, end);
        }

        int connector = word.LastIndexOf('-') + 1;
        bool isConnector = word.Length == connector + 2 && word[connector] is 'A' or 'C' && word[^1] is 'l' or 'I'
            && (text.Slice(start, start + connector) is "USB-" or "Type-" or "TYPE-" or "USB-Type-");
        if (isConnector)
        {
            text.Replace(end - 1, "1", RepairKind.Characters, start, end);
        }
    }
}
