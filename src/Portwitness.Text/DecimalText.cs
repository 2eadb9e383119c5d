using System.Buffers;
using System.Text;

namespace Portwitness.Text;

/// <summary>Which character stands before the decimals.</summary>
public enum DecimalMark
{
    /// <summary>A point or a comma.</summary>
    PointOrComma,

    /// <summary>A point.</summary>
    Point,

    /// <summary>A comma.</summary>
    Comma,
}

/// <summary>Reads decimal numbers as integers of a smaller unit, exactly and without floating point.</summary>
public static class DecimalText
{
    private const int MaxDigits = 19;
    private const int MaxExponent = 100;
    private const int MaxExactCharacters = 20;

    // Nineteen digits, times a factor of at most six, are less than half of the next power.
    private const int MaxPower = MaxDigits + 7;

    private static readonly UInt128[] Powers = MakePowers();

    /// <summary>Reads a number, with or without sign, decimals and exponent, for example "1.25e-3".</summary>
    /// <param name="text">The number, without blanks. Digits beyond the nineteenth count as zeros.</param>
    /// <param name="power">The power of ten that the number is multiplied by, for example 6 for seconds to microseconds.</param>
    /// <param name="value">The result, rounded to the nearest; halves away from zero.</param>
    /// <param name="mark">What stands before the decimals.</param>
    /// <param name="factor">Another factor of the unit, from 1 to 999,999, for example 60 for minutes.</param>
    /// <returns>False when the text is no number, or the result is beyond 64 bits.</returns>
    public static bool TryRead(
        ReadOnlySpan<byte> text, int power, out long value, DecimalMark mark = DecimalMark.PointOrComma, int factor = 1)
    {
        value = 0;
        return TryParse(text, mark, out Digits digits)
            && TryScale(digits.Value * (uint)factor, digits.Power + power, digits.IsNegative, out value, out _);
    }

    /// <summary>Reads a number that is whole in the smaller unit; it has a point before its decimals and no exponent.</summary>
    /// <param name="text">The number, at most 20 characters.</param>
    /// <param name="power">The power of ten that the number is multiplied by, for example 3 for volts to millivolts.</param>
    /// <param name="factor">Another factor of the unit, from 1 to 999,999.</param>
    /// <returns>Null when the text is no such number.</returns>
    public static long? Exact(ReadOnlySpan<char> text, int power, int factor = 1)
    {
        Span<byte> ascii = stackalloc byte[MaxExactCharacters];
        return !text.ContainsAny('e', 'E')
            && Ascii.FromUtf16(text, ascii, out int length) == OperationStatus.Done
            && TryParse(ascii[..length], DecimalMark.Point, out Digits digits)
            && TryScale(digits.Value * (uint)factor, digits.Power + power, digits.IsNegative, out long value, out bool isWhole) && isWhole
                ? value
                : null;
    }

    private static bool TryParse(ReadOnlySpan<byte> text, DecimalMark mark, out Digits number)
    {
        number = default;
        bool isNegative = text is [(byte)'-', ..];
        int at = isNegative || text is [(byte)'+', ..] ? 1 : 0;
        ulong digits = 0;
        (int used, int power) = (0, 0);
        (bool any, bool inDecimals) = (false, false);
        for (; at < text.Length; at++)
        {
            uint digit = (uint)(text[at] - '0');
            if (digit <= 9)
            {
                any = true;
                if (used < MaxDigits)
                {
                    // Leading zeros do not count.
                    digits = (digits * 10) + digit;
                    used += digits > 0 ? 1 : 0;
                    power -= inDecimals ? 1 : 0;
                }
                else
                {
                    power += inDecimals ? 0 : 1;
                }
            }
            else if (!inDecimals && IsMark(text[at], mark))
            {
                inDecimals = true;
            }
            else
            {
                break;
            }
        }

        int exponent = 0;
        bool isRead = any && (at == text.Length || ((text[at] | 0x20) == 'e' && TryExponent(text[(at + 1)..], out exponent)));
        number = new Digits(digits, power + exponent, isNegative);
        return isRead;
    }

    private static bool IsMark(byte character, DecimalMark mark) => character switch
    {
        (byte)'.' => mark != DecimalMark.Comma,
        (byte)',' => mark != DecimalMark.Point,
        _ => false,
    };

    private static bool TryExponent(ReadOnlySpan<byte> text, out int exponent)
    {
        exponent = 0;
        bool isNegative = text is [(byte)'-', ..];
        text = isNegative || text is [(byte)'+', ..] ? text[1..] : text;
        foreach (byte character in text)
        {
            uint digit = (uint)(character - '0');
            exponent = (exponent * 10) + (int)digit;
            if (digit > 9 || exponent > MaxExponent)
            {
                return false;
            }
        }

        exponent = isNegative ? -exponent : exponent;
        return !text.IsEmpty;
    }

    private static bool TryScale(UInt128 digits, int power, bool isNegative, out long value, out bool isWhole)
    {
        (value, isWhole) = (0, true);
        UInt128 magnitude = digits;
        if (power > 0 && digits != 0)
        {
            if (power >= MaxDigits || digits > long.MaxValue)
            {
                return false;
            }

            magnitude = digits * Powers[power];
        }
        else if (power < 0)
        {
            UInt128 divisor = Powers[Math.Min(-power, MaxPower)];
            magnitude = digits / divisor;
            UInt128 rest = digits - (magnitude * divisor);
            isWhole = rest == 0;
            magnitude += rest >= divisor / 2 ? 1u : 0u;
        }

        if (magnitude > (isNegative ? 1UL << 63 : long.MaxValue))
        {
            return false;
        }

        value = isNegative ? (long)(0 - (ulong)magnitude) : (long)magnitude;
        return true;
    }

    private static UInt128[] MakePowers()
    {
        UInt128[] powers = new UInt128[MaxPower + 1];
        powers[0] = 1;
        for (int power = 1; power < powers.Length; power++)
        {
            powers[power] = powers[power - 1] * 10;
        }

        return powers;
    }

    /// <summary>A number as it is written: its digits times a power of ten.</summary>
    private readonly record struct Digits(UInt128 Value, int Power, bool IsNegative);
}
