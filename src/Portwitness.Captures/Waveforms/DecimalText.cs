namespace Portwitness.Captures.Waveforms;

/// <summary>Decimal numbers, with or without exponent, as integers of a smaller unit; no floating point between.</summary>
internal static class DecimalText
{
    private const int MostDigits = 18;
    private const int MostExponent = 100;

    private static readonly long[] Powers = [.. Enumerable.Range(0, MostDigits + 1).Select(power => (long)Math.Pow(10, power))];

    /// <summary>Reads the whole text, for example "1.25e-3" in steps of 10^-6 as 1250; digits below a step are cut off.</summary>
    /// <param name="text">The number, without blanks.</param>
    /// <param name="steps">Steps are ten to the minus this.</param>
    /// <param name="value">The number of steps.</param>
    /// <param name="point">What stands before the decimals.</param>
    /// <returns>False when the text is no number, or too large a one.</returns>
    public static bool TryParse(ReadOnlySpan<byte> text, int steps, out long value, byte point = (byte)'.')
    {
        value = 0;
        bool negative = text.StartsWith("-"u8);
        int at = negative || text.StartsWith("+"u8) ? 1 : 0;
        int first = at;
        int digits = 0;
        int scale = steps;
        bool inDecimals = false;
        for (; at < text.Length; at++)
        {
            int digit = text[at] - '0';
            if ((uint)digit <= 9)
            {
                // Leading zeroes do not count, digits beyond the eighteenth are only counted.
                if (digits < MostDigits)
                {
                    value = (value * 10) + digit;
                    digits += value > 0 ? 1 : 0;
                    scale -= inDecimals ? 1 : 0;
                }
                else
                {
                    scale += inDecimals ? 0 : 1;
                }
            }
            else if (text[at] == point && !inDecimals)
            {
                inDecimals = true;
            }
            else
            {
                break;
            }
        }

        bool any = at > first + (inDecimals ? 1 : 0);
        if (at < text.Length && any)
        {
            any = (text[at] | 0x20) == 'e' && TryExponent(text[(at + 1)..], out int exponent) && (scale += exponent) == scale;
        }

        return any && TryScale(ref value, scale, negative);
    }

    private static bool TryExponent(ReadOnlySpan<byte> text, out int exponent)
    {
        exponent = 0;
        bool negative = text.StartsWith("-"u8);
        text = negative || text.StartsWith("+"u8) ? text[1..] : text;
        foreach (byte digit in text)
        {
            exponent = (exponent * 10) + (digit - '0');
            if ((uint)(digit - '0') > 9 || exponent > MostExponent)
            {
                return false;
            }
        }

        exponent = negative ? -exponent : exponent;
        return !text.IsEmpty;
    }

    private static bool TryScale(ref long value, int scale, bool negative)
    {
        if (scale < 0)
        {
            value = -scale > MostDigits ? 0 : value / Powers[-scale];
        }
        else if (value != 0)
        {
            if (scale > MostDigits || value > long.MaxValue / Powers[scale])
            {
                return false;
            }

            value *= Powers[scale];
        }

        value = negative ? -value : value;
        return true;
    }
}
