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

    private const int ShortestDirection = 5;
    private const int LongestDirection = 14;

    private static readonly SearchValues<char> LikeDigits = SearchValues.Create("OolISsZB\u041E\u043E");

    private static readonly SearchValues<char> LikeDirect = SearchValues.Create("_\u2261\u2263\u2630\u2243\u2248\u4E00\u4E8C\u4E09\u30CB\u30FC\u2192");

    private static readonly string[] Units = ["V", "VDC", "VAC", "A", "W", "Hz", "mA", "mW", "mAh", "Wh", "Ah", "В", "А", "Вт", "Гц", "мА"];

    public static void Repair(FoldedText text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            char before = i > 0 ? text[i - 1] : '\0';
            if (IsHyphen(text, i))
            {
                text.Replace(i, "-", RepairKind.Sign, i, i + 1);
            }
            else if (Meant(text, i) is { } meant)
            {
                text.Replace(i, [meant], RepairKind.Characters, i - 1, i + 1);
            }
            else if (LikeDirect.Contains(text[i]))
            {
                i = Direct(text, i) - 1;
            }
            else if (char.IsAsciiDigit(text[i]) && FollowsNature(text, i))
            {
                // "AC1OO-240V".
                i = Math.Max(i, Number(text, i) - 1);
            }
            else if (!Letters.IsLetterOrDigit(before) && before is not ('.' or '_'))
            {
                char c = text[i];
                if (Word(text, i) is { } wordEnd)
                {
                    i = wordEnd - 1;
                    continue;
                }

                if (char.IsAsciiDigit(c) || c is 'l' or 'I' or 'S' or 'O' or 'o' or '\u041E' or '\u043E')
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

    private static bool FollowsNature(FoldedText text, int at) => at >= 2 && !(at >= 3 && Letters.IsLetterOrDigit(text[at - 3]))
        && text.Slice(at - 2, at) is "AC" or "DC";

    // "0utput", "lnput", "ElNGANG": a word that nobody knows, and one that says a direction when its 0 is an O and its l an I.
    private static int? Word(FoldedText text, int start)
    {
        int end = start;
        bool isSuspect = false;
        while (end - start < LongestDirection && Letters.IsLetterOrDigit(text[end]))
        {
            isSuspect |= text[end] is '0' or '1' or 'l';
            end++;
        }

        if (!isSuspect || end - start < ShortestDirection || Letters.IsLetterOrDigit(text[end]))
        {
            return null;
        }

        Span<char> meant = stackalloc char[LongestDirection];
        meant = meant[..(end - start)];
        for (int i = 0; i < meant.Length; i++)
        {
            meant[i] = text[start + i] switch { '0' => 'O', '1' or 'l' => 'I', var c => c };
        }

        if (Vocabulary.Find(text.Slice(start, end)) != Term.None || !IsHeading(meant))
        {
            return null;
        }

        text.Replace(start, meant, RepairKind.Characters, start, end);
        return end;
    }

    private static bool IsHeading(ReadOnlySpan<char> word) => WordParts.Find(word) is Term.Input or Term.Output
        or Term.Total or Term.MaximumOutput or Term.Battery
        or Term.RatedCapacity or Term.Energy or Term.NominalVoltage or Term.Product
            || (WordParts.OfWord(word) is Part.Power && word.Length >= LongestDirection / 2);

    // A person or a lambda for "enter", a hill for "out", a katakana letter for "power".
    private static char? Meant(FoldedText text, int at) => at == 0 ? AtStart(text, at) : text[at] switch
    {
        '\u03BB' when text[at - 1] is '\u8F93' or '\u8F38' => '\u5165',
        '\u5C80' when text[at - 1] is '\u8F93' or '\u8F38' => '\u51FA',
        '\u4EBA' when !Letters.IsUnspaced(text[at - 1]) => AtStart(text, at),
        '\u4EBA' when text[at - 1] is '\u8F93' or '\u8F38' => '\u5165',
        '\u30AB' when text[at - 1] is '\u5165' or '\u51FA' && !Letters.IsUnspaced(text[at + 1]) => '\u529B',
        _ => null,
    };

    // "人力" in front of a colon: "manpower" rates nothing.
    private static char? AtStart(FoldedText text, int at) => text[at] == '\u4EBA' && text[at + 1] == '\u529B' && text[at + 2] is ':' or ' ' ? '\u5165' : null;

    // "USBーC", "USB一C", "USB–C": no word has such a sign within.
    private static bool IsHyphen(FoldedText text, int at) => text[at] is '\u30FC' or '\u4E00' or '\u3161' or Folding.Dash && at >= 3
        && text.Slice(at - 3, at).Equals("USB", StringComparison.OrdinalIgnoreCase) && text[at + 1] is 'A' or 'B' or 'C' or '\u0421' or '\u0410'
        && !Letters.IsLetter(text[at + 2]);

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
        if (before > 0 && text[before] is 'V' or 'v' && char.IsAsciiDigit(text[before > 1
            && text[before - 1] == ' ' ? before - 2 : before - 1]) && char.IsAsciiDigit(text[behind]))
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

        string? unit = UnitAt(text, end) ?? (text[end] == ' ' ? UnitAt(text, end + 1) : null);
        int reportEnd = end + (unit?.Length ?? 0);
        if (unit is null && text[end] is '-' or Folding.Dash or '~' or '/')
        {
            // "1OO-240V": the unit stands behind the upper end.
            int upper = RunEnd(text, end + 1);
            unit = upper > end + 1 ? UnitAt(text, upper) ?? (text[upper] == ' ' ? UnitAt(text, upper + 1) : null) : null;
            unit = unit is "V" or "VAC" or "VDC" or "Hz" or "В" or "Гц" ? unit : null;
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

        // "O.8A", "l,5A".
        bool isFraction = text[start + 1] is '.' or ',' && char.IsAsciiDigit(text[start + 2]);
        return digits > 0 && (char.IsAsciiDigit(text[start]) || isFraction
            || (text[start] is 'l' or 'I' && char.IsAsciiDigit(text[start + 1])));
    }

    private static bool IsSane(ReadOnlySpan<char> number, string unit) =>
        decimal.TryParse(number.ToString().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal value)
        && (number[0] != '0' || number.Length == 1 || number[1] is '.' or ',')
        && unit switch
        {
            "V" or "VDC" or "VAC" or "В" => value is (> 0 and <= 48) or (>= 100 and <= 240),
            "A" or "А" => value is > 0 and <= 10,
            "W" or "Вт" => value is > 0 and <= 300,
            "Hz" or "Гц" => value is 50 or 60,
            _ => value > 0,
        };

    private static int RunEnd(FoldedText text, int start)
    {
        int end = start;
        while (char.IsAsciiDigit(text[end]) || LikeDigits.Contains(text[end])
            || (text[end] is '.' or ',' && (char.IsAsciiDigit(text[end + 1]) || LikeDigits.Contains(text[end + 1]))))
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
        'O' or 'o' or '\u041E' or '\u043E' => '0',
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
