namespace Portwitness.Captures.Tables;

/// <summary>Reads decimal numbers exactly, without floating point.</summary>
internal static class DecimalText
{
    private const int MostDigits = 30;
    private const int MostPower = 40;

    /// <summary>Reads a number with a point or a comma and perhaps an exponent; false when it is none, or beyond 64 bits.</summary>
    /// <param name="text">The cell, blanks taken off.</param>
    /// <param name="power">Power of ten that the number is multiplied by, for example 6 for seconds to microseconds.</param>
    /// <param name="value">The result, rounded to the nearest; halves away from zero.</param>
    public static bool TryRead(ReadOnlySpan<byte> text, int power, out long value) => TryRead(text, new TableUnit(power), 0, out value);

    /// <summary>Reads a number of a unit.</summary>
    /// <param name="text">The cell, blanks taken off.</param>
    /// <param name="unit">Its unit.</param>
    /// <param name="finer">Power of ten of the base unit in what is wanted: 6 for microseconds.</param>
    /// <param name="value">The result, rounded to the nearest; halves away from zero.</param>
    public static bool TryRead(ReadOnlySpan<byte> text, TableUnit unit, int finer, out long value)
    {
        int power = unit.Power + finer;
        value = 0;
        bool negative = text.StartsWith("-"u8);
        if (negative || text.StartsWith("+"u8))
        {
            text = text[1..];
        }

        int exponentAt = text.IndexOfAny((byte)'e', (byte)'E');
        if (exponentAt >= 0)
        {
            if (!TryExponent(text[(exponentAt + 1)..], out int exponent))
            {
                return false;
            }

            power += exponent;
            text = text[..exponentAt];
        }

        Int128 digits = 0;
        int count = 0;
        int separator = -1;
        for (int at = 0; at < text.Length; at++)
        {
            if (text[at] is (byte)'.' or (byte)',' && separator < 0)
            {
                separator = at;
                continue;
            }

            if (!char.IsAsciiDigit((char)text[at]) || (digits != 0 && ++count > MostDigits))
            {
                return false;
            }

            digits = (digits * 10) + (text[at] - '0');
        }

        if (text.Length == 0 || (separator >= 0 && text.Length == 1))
        {
            return false;
        }

        power -= separator < 0 ? 0 : text.Length - separator - 1;
        return TryScale((negative ? -digits : digits) * Math.Max(unit.Factor, 1), power, out value);
    }

    private static bool TryExponent(ReadOnlySpan<byte> text, out int exponent) =>
        System.Buffers.Text.Utf8Parser.TryParse(text, out exponent, out int used) && used == text.Length && used > 0
        && Math.Abs((long)exponent) <= MostPower;

    private static bool TryScale(Int128 digits, int power, out long value)
    {
        value = 0;
        for (; power > 0 && digits != 0; power--)
        {
            if (digits > long.MaxValue || digits < long.MinValue)
            {
                return false;
            }

            digits *= 10;
        }

        Int128 divisor = 1;
        for (; power < 0; power++)
        {
            if (divisor > Int128.MaxValue / 100)
            {
                return true;
            }

            divisor *= 10;
        }

        Int128 rounded = divisor == 1 ? digits : ((digits < 0 ? digits - (divisor / 2) : digits + (divisor / 2)) / divisor);
        value = rounded >= long.MinValue && rounded <= long.MaxValue ? (long)rounded : 0;
        return value == rounded;
    }
}
