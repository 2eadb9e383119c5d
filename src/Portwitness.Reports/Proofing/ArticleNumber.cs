using System.Globalization;

namespace Portwitness.Reports.Proofing;

/// <summary>A number as people write it: "3.25", "3,25", "20,000", "20.000", "20 000".</summary>
internal static class ArticleNumber
{
    private const int MaxDigits = 18;

    /// <summary>
    /// The number, the worth of its last digit, and the other number that it may be where its only mark stands before three digits; null
    /// for what is none.
    /// </summary>
    public static (decimal Number, decimal Step, decimal? Other)? Read(ReadOnlySpan<char> written, bool isCommaDecimal)
    {
        Span<char> digits = stackalloc char[MaxDigits];
        int count = 0;
        int lastMark = -1;
        (int points, int commas) = (0, 0);
        foreach (char c in written)
        {
            if (char.IsAsciiDigit(c))
            {
                if (count == MaxDigits)
                {
                    return null;
                }

                digits[count++] = c;
            }
            else if (c is '.' or ',')
            {
                (points, commas) = c == '.' ? (points + 1, commas) : (points, commas + 1);
                lastMark = count;
            }
        }

        if (count == 0)
        {
            return null;
        }

        decimal whole = decimal.Parse(digits[..count], NumberStyles.None, CultureInfo.InvariantCulture);
        int behind = lastMark < 0 ? 0 : count - lastMark;
        decimal scale = Power(behind);
        bool isOne = points + commas == 1;
        bool mayBeThousands = isOne && behind == 3 && lastMark is > 0 and <= 3 && digits[0] != '0';
        bool isThousands = (points + commas > 1 && (points == 0 || commas == 0)) || (mayBeThousands && (commas == 1) != isCommaDecimal);
        return isThousands ? (whole, 1, mayBeThousands ? whole / scale : null) : (whole / scale, 1 / scale, mayBeThousands ? whole : null);
    }

    private static decimal Power(int digits)
    {
        decimal power = 1;
        for (int i = 0; i < digits; i++)
        {
            power *= 10;
        }

        return power;
    }
}
