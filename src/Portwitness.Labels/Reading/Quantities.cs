using System.Buffers;
using System.Collections.Frozen;
using System.Globalization;

namespace Portwitness.Labels;

/// <summary>Reads numbers and their units. A number that is not sane, or that can be read in two ways, is not read.</summary>
internal sealed class Quantities(FoldedText text)
{
    /// <summary>A unit as printed, what it measures, and how many thousandths of it are one of ours, or how many of ours a thousandth is.</summary>
    private readonly record struct Unit(string Name, Dimension Dimension, int Divisor = 1, TokenKind? Then = null, int Factor = 1)
    {
        public bool IsThousandth => Divisor == 1000 && Dimension != Dimension.Frequency;
    }

    // Longest first. Upper and lower case are the same, but for the prefix "m" of mV and mW (MV and MW are something else).
    private static readonly Unit[] Units =
    [
        new("mWh", Dimension.Energy, 1000), new("mAh", Dimension.Charge, 1000), new("mA•h", Dimension.Charge, 1000),
        new("kWh", Dimension.Energy, Factor: 1000), new("W•h", Dimension.Energy), new("A•h", Dimension.Charge),
        new("毫安培小時", Dimension.Charge, 1000), new("毫安培小时", Dimension.Charge, 1000), new("毫安小时", Dimension.Charge, 1000),
        new("毫安時", Dimension.Charge, 1000), new("毫安时", Dimension.Charge, 1000), new("毫安培", Dimension.Current, 1000),
        new("毫安", Dimension.Current, 1000), new("毫瓦", Dimension.Power, 1000), new("瓦特小時", Dimension.Energy), new("瓦特小时", Dimension.Energy),
        new("瓦時", Dimension.Energy), new("瓦时", Dimension.Energy), new("安時", Dimension.Charge), new("安时", Dimension.Charge),
        new("伏特", Dimension.Voltage), new("瓦特", Dimension.Power), new("安培", Dimension.Current), new("赫兹", Dimension.Frequency, 1000),
        new("赫茲", Dimension.Frequency, 1000), new("伏", Dimension.Voltage), new("安", Dimension.Current), new("瓦", Dimension.Power),
        new("ミリアンペア時", Dimension.Charge, 1000), new("ミリアンペア", Dimension.Current, 1000), new("アンペア", Dimension.Current),
        new("ワット時", Dimension.Energy), new("ワット", Dimension.Power), new("ボルト", Dimension.Voltage), new("ヘルツ", Dimension.Frequency, 1000),
        new("밀리암페어시", Dimension.Charge, 1000), new("밀리암페어", Dimension.Current, 1000), new("암페어", Dimension.Current),
        new("와트시", Dimension.Energy), new("와트", Dimension.Power), new("볼트", Dimension.Voltage), new("헤르츠", Dimension.Frequency, 1000),
        new("мА•ч", Dimension.Charge, 1000), new("мА*ч", Dimension.Charge, 1000), new("мАч", Dimension.Charge, 1000),
        new("Вт•ч", Dimension.Energy), new("Вт*ч", Dimension.Energy), new("Втч", Dimension.Energy), new("А•ч", Dimension.Charge),
        new("Ач", Dimension.Charge), new("мВт", Dimension.Power, 1000), new("мА", Dimension.Current, 1000), new("мВ", Dimension.Voltage, 1000),
        new("кВт", Dimension.Power, Factor: 1000), new("Вт", Dimension.Power), new("Гц", Dimension.Frequency, 1000),
        new("В", Dimension.Voltage), new("А", Dimension.Current),
        new("V.CC", Dimension.Voltage, Then: TokenKind.Direct), new("VCC", Dimension.Voltage, Then: TokenKind.Direct),
        new("V.CA", Dimension.Voltage, Then: TokenKind.Alternating), new("VCA", Dimension.Voltage, Then: TokenKind.Alternating),
        new("V.DC", Dimension.Voltage, Then: TokenKind.Direct), new("V.AC", Dimension.Voltage, Then: TokenKind.Alternating),
        new("VDC", Dimension.Voltage, Then: TokenKind.Direct), new("VAC", Dimension.Voltage, Then: TokenKind.Alternating),
        new("vatios", Dimension.Power), new("voltios", Dimension.Voltage), new("amperios", Dimension.Current), new("ampères", Dimension.Current), new("ampère", Dimension.Current), new("hertz", Dimension.Frequency, 1000),
        new("volts", Dimension.Voltage), new("watts", Dimension.Power), new("amperes", Dimension.Current), new("volt", Dimension.Voltage),
        new("watt", Dimension.Power), new("ampere", Dimension.Current), new("amps", Dimension.Current),
        new("Wh", Dimension.Energy), new("Ah", Dimension.Charge), new("Hz", Dimension.Frequency, 1000), new("VA", Dimension.ApparentPower),
        new("mV", Dimension.Voltage, 1000), new("mA", Dimension.Current, 1000), new("mW", Dimension.Power, 1000),
        new("kW", Dimension.Power, Factor: 1000),
        new("V", Dimension.Voltage), new("A", Dimension.Current), new("W", Dimension.Power), new("%", Dimension.Ratio, 1),
    ];

    private static readonly FrozenDictionary<char, Unit[]> UnitsByStart = Units.GroupBy(static unit => char.ToUpperInvariant(unit.Name[0]))
        .ToFrozenDictionary(static group => group.Key, static group => group.ToArray());

    private static readonly SearchValues<char> UnitStarts = SearchValues.Create("mMkKvVwWaAhH%毫瓦安伏赫ミアワボヘ밀암와볼헤мМкКвВаАгГ");

    // "999 999 999": no capacity is longer, and what is no number must not be looked through to its end at each of its groups.
    private const int LongestGrouped = 12;

    // Voltages that labels list ("5,9V" may be two of them).
    private static readonly int[] ListedVoltages = [5, 9, 12, 15, 20, 28, 36, 48];

    private readonly bool _pointIsDecimal = HasDecimalPoint(text);
    private readonly bool _hasCyrillic = text.Printed.AsSpan().ContainsAnyInRange('\u0410', '\u044F');

    /// <summary>A number, and its unit when it has one.</summary>
    /// <param name="IsValid">Whether the value is sane and clear.</param>
    /// <param name="Value">In the unit of the dimension.</param>
    /// <param name="Step">Worth of the last printed digit.</param>
    /// <param name="Dimension">None for a bare number.</param>
    /// <param name="UnitStart">Where the unit begins.</param>
    /// <param name="End">After the unit, or after the bare number.</param>
    /// <param name="Then">The sign that the unit has in it (the "DC" of "VDC"), one character after its start.</param>
    internal readonly record struct Reading(
        bool IsValid, int Value, int Step, Dimension Dimension, int UnitStart, int End, TokenKind? Then)
    {
        /// <summary>The number is printed with a decimal comma, or with its digits in groups.</summary>
        public bool IsRespelled { get; init; }
    }

    /// <summary>Reads the number that begins at an index, which must hold a digit, or a point before a digit.</summary>
    public Reading Read(int start)
    {
        int numberEnd = NumberEnd(start);
        if (Grouped(start, numberEnd) is { } grouped)
        {
            return grouped;
        }

        int unitStart = text[numberEnd] is ' ' && text[numberEnd + 1] is not ' ' ? numberEnd + 1 : numberEnd;
        Unit unit = UnitAt(unitStart, glued: unitStart == numberEnd);
        bool clear = TryParse(start, numberEnd, unit, out long thousandths, out int decimals);
        int end = unit.Name is null ? numberEnd : unitStart + unit.Name.Length;
        int divisor = unit.Name is null ? 1 : unit.Divisor;
        int factor = unit.Name is null ? 1 : unit.Factor;
        long value = thousandths / divisor * factor;
        bool sane = clear && thousandths % divisor == 0 && IsSane(unit.Dimension, value);
        int step = Math.Max(1, PowerOfTen(3 - decimals) / divisor) * factor;
        return new Reading(sane, sane ? (int)value : 0, step, unit.Dimension, unitStart, end, unit.Then)
        {
            IsRespelled = sane && text.Slice(start, numberEnd).ContainsAny(',', '.') && IsRespelled(text.Slice(start, numberEnd), decimals),
        };
    }

    private static bool IsRespelled(ReadOnlySpan<char> printed, int decimals) => printed.Contains(',') || decimals == 0;

    // "20 000 mAh", "20'000 mAh", "2万毫安时": a capacity is the only thing printed with so many digits.
    private Reading? Grouped(int start, int numberEnd)
    {
        bool isTenThousand = text[numberEnd] is '万' or '萬' or '만';
        int end = isTenThousand ? numberEnd + 1 : numberEnd;
        if (!isTenThousand && (numberEnd - start > 3 || text[start] == '0'))
        {
            return null;
        }

        while (!isTenThousand && end - start <= LongestGrouped && text[end] is ' ' or '\'' && IsGroup(end + 1))
        {
            end += 4;
        }

        int unitStart = text[end] is ' ' ? end + 1 : end;
        Unit unit = end == numberEnd ? default : UnitAt(unitStart, glued: unitStart == end);
        if (!unit.IsThousandth || unit.Dimension is not (Dimension.Charge or Dimension.Current) || end - start > LongestGrouped)
        {
            return null;
        }

        string digits = text.Slice(start, isTenThousand ? numberEnd : end).ToString();
        digits = isTenThousand ? digits : digits.Replace(" ", "", StringComparison.Ordinal).Replace("'", "", StringComparison.Ordinal);
        bool isNumber = decimal.TryParse(digits, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal number);
        decimal value = number * (isTenThousand ? 10_000 : 1);
        bool sane = isNumber && value == decimal.Truncate(value) && value is > 0 and <= 10_000_000;
        return new Reading(sane, sane ? (int)value : 0, 1, unit.Dimension, unitStart, unitStart + unit.Name.Length, null)
        {
            IsRespelled = true,
        };
    }

    private bool IsGroup(int start) => char.IsAsciiDigit(text[start]) && char.IsAsciiDigit(text[start + 1])
        && char.IsAsciiDigit(text[start + 2]) && !char.IsAsciiDigit(text[start + 3]) && text[start + 3] is not ('.' or ',');

    /// <summary>Whether a quantity, or a range that ends in one, begins at an index.</summary>
    public bool QuantityAt(int start)
    {
        if (!char.IsAsciiDigit(text[start]))
        {
            return false;
        }

        int end = NumberEnd(start);
        if (IsRangeSign(text[end]) && char.IsAsciiDigit(text[end + 1]))
        {
            end = NumberEnd(end + 1);
        }

        return UnitAt(end, glued: true).Name is not null;
    }

    /// <summary>Whether a range begins at an index that has a space in front of its unit: "100-240 V".</summary>
    public bool RangeAt(int start)
    {
        int low = NumberEnd(start);
        int end = IsRangeSign(text[low]) && char.IsAsciiDigit(text[low + 1]) ? NumberEnd(low + 1) : low;
        return end > low && text[end] == ' ' && UnitAt(end + 1, glued: false).Dimension == Dimension.Voltage;
    }

    private int NumberEnd(int start)
    {
        int end = start;
        while (char.IsAsciiDigit(text[end]) || (text[end] is '.' or ',' && char.IsAsciiDigit(text[end + 1])))
        {
            end++;
        }

        return end;
    }

    // "3A" is a quantity in "5V3A" and not in "3Amp"; after a space "A1" and "a" are words.
    private Unit UnitAt(int start, bool glued)
    {
        // "5B" in a Russian label is 5 V: the Latin letter stands for the Cyrillic one.
        if (_hasCyrillic && text[start] == 'B' && !Letters.IsLetterOrDigit(text[start + 1]))
        {
            return new Unit("B", Dimension.Voltage);
        }

        if (!UnitStarts.Contains(text[start]))
        {
            return default;
        }

        foreach (Unit unit in UnitsByStart.GetValueOrDefault(char.ToUpperInvariant(text[start]), []))
        {
            int end = start + unit.Name.Length;
            if (end <= text.Length && Matches(text.Slice(start, end), unit.Name, glued) && !Letters.IsLetter(text[end])
                && (!char.IsAsciiDigit(text[end]) || (glued && FollowedByUnit(end))))
            {
                return unit;
            }
        }

        return default;
    }

    private bool FollowedByUnit(int start) => UnitStarts.Contains(text[NumberEnd(start)]);

    private static bool Matches(ReadOnlySpan<char> printed, string unit, bool glued) =>
        unit is "mV" or "mW" or "мВт" or "мВ" || (unit is "A" or "А" or "В" && !glued)
            ? printed.SequenceEqual(unit) : printed.Equals(unit, StringComparison.OrdinalIgnoreCase);

    private bool TryParse(int start, int end, Unit unit, out long thousandths, out int decimals)
    {
        (thousandths, decimals) = (0, 0);
        ReadOnlySpan<char> printed = text.Slice(start, end);
        int mark = printed.LastIndexOfAny('.', ',');
        ReadOnlySpan<char> whole = printed;
        ReadOnlySpan<char> fraction = default;
        if (mark >= 0 && unit.IsThousandth && IsGrouped(printed, printed[mark]))
        {
            // "20,000 mAh", "13.400 mAh", "2.400 mA": neither is ever printed to the thousandth.
            whole = printed.ToString().Replace(printed[mark].ToString(), "", StringComparison.Ordinal);
        }
        else if (mark >= 0)
        {
            whole = printed[..mark];
            fraction = printed[(mark + 1)..];
            if (whole.ContainsAny('.', ',') || (printed[mark] == ',' && !CommaIsDecimal(start, end, whole, fraction, unit)))
            {
                return false;
            }
        }

        // Two leading zeros are a code, not a value; so are more digits than any value has.
        if (whole.Length > 7 || fraction.Length > 3 || (whole.Length > 1 && whole[0] == '0'))
        {
            return false;
        }

        decimals = fraction.Length;
        long number = whole.IsEmpty ? 0 : long.Parse(whole, NumberStyles.None, CultureInfo.InvariantCulture);
        long rest = fraction.IsEmpty ? 0 : long.Parse(fraction, NumberStyles.None, CultureInfo.InvariantCulture);
        thousandths = number * 1000 + rest * PowerOfTen(3 - decimals);
        return true;
    }

    // A comma separates decimals unless the label writes them with a point, or it may separate thousands or a list.
    private bool CommaIsDecimal(int start, int end, ReadOnlySpan<char> whole, ReadOnlySpan<char> fraction, Unit unit)
    {
        bool beginsRange = unit.Name is null && (IsRangeSign(text[end]) || BeginsList(end));
        bool endsRange = start > 0 && IsRangeSign(text[start - 1]);
        bool voltage = beginsRange || unit.Dimension == Dimension.Voltage;
        return !_pointIsDecimal && (beginsRange || unit.Name is not null) && !unit.IsThousandth
            && (fraction.Length < 3 || unit.Dimension == Dimension.Current)
            && !(voltage && !endsRange && IsListed(whole) && IsListed(fraction));
    }

    // "3,3 to 11 V", "7,5 / 10 W", "3,3...11 V".
    private bool BeginsList(int end)
    {
        int next = text[end] == ' ' ? end + 1 : end;
        int letters = next;
        while (Letters.IsLetter(text[letters]) && letters - next < LongestGrouped)
        {
            letters++;
        }

        return IsRangeSign(text[next]) || text[next] is '/' || (text[next] == '.' && text[next + 1] == '.')
            || (letters > next && Vocabulary.Find(text.Slice(next, letters)) == Term.To);
    }

    private static bool IsRangeSign(char c) => c is '-' or Folding.Dash or '~';

    private static bool IsListed(ReadOnlySpan<char> digits) =>
        digits.Length <= 2 && int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out int value)
        && ListedVoltages.Contains(value);

    private static bool IsGrouped(ReadOnlySpan<char> printed, char separator)
    {
        int first = printed.IndexOfAny('.', ',');
        if (first is < 1 or > 3 || printed[0] == '0' || (printed.Length - first) % 4 != 0)
        {
            return false;
        }

        for (int i = first; i < printed.Length; i++)
        {
            bool isSeparator = (i - first) % 4 == 0;
            if (isSeparator ? printed[i] != separator : !char.IsAsciiDigit(printed[i]))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsSane(Dimension dimension, long value) => value > 0 && value <= dimension switch
    {
        Dimension.Voltage => 1_000_000,
        Dimension.Current => 100_000,
        Dimension.Power or Dimension.ApparentPower => 10_000_000,
        Dimension.Energy => 100_000_000,
        Dimension.Charge => 10_000_000,
        Dimension.Frequency => 1000,
        Dimension.Ratio => 100_000,
        _ => int.MaxValue,
    };

    private static int PowerOfTen(int exponent) => exponent switch { 0 => 1, 1 => 10, 2 => 100, _ => 1000 };

    private static bool HasDecimalPoint(FoldedText text)
    {
        for (int i = 1; i + 1 < text.Length; i++)
        {
            if (text[i] == '.' && char.IsAsciiDigit(text[i - 1]) && char.IsAsciiDigit(text[i + 1]))
            {
                int end = i + 1;
                while (char.IsAsciiDigit(text[end]))
                {
                    end++;
                }

                int unit = text[end] == ' ' ? end + 1 : end;
                if (char.ToUpperInvariant(text[unit]) is 'V' or 'A' or 'W' or 'В' or 'А' && end - i <= 4)
                {
                    return true;
                }

                i = end;
            }
        }

        return false;
    }
}
