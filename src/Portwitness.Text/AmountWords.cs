using System.Globalization;

namespace Portwitness.Text;

/// <summary>Amounts with their unit, as people write them: "3.25A", "500mA", "5-21V", "60W", "8s". Null when the word is none.</summary>
public static class AmountWords
{
    /// <summary>Largest amount either way, in mV, mA or mW.</summary>
    public const int MaxThousandths = 1_000_000;

    /// <summary>Longest time: a leap year.</summary>
    public const long MaxMicroseconds = 366L * 24 * 3_600_000_000;

    private static readonly (string Unit, int Power, int Factor)[] TimeUnits =
        [("us", 0, 1), ("ms", 3, 1), ("min", 6, 60), ("s", 6, 1), ("h", 6, 3600)];

    /// <summary>"5V" or "5000mV", in millivolts.</summary>
    public static int? Millivolts(string word) => Thousandths(word, "V");

    /// <summary>"3.25A" or "500mA", in milliamperes.</summary>
    public static int? Milliamperes(string word) => Thousandths(word, "A");

    /// <summary>"60W" or "500mW", in milliwatts.</summary>
    public static int? Milliwatts(string word) => Thousandths(word, "W");

    /// <summary>"5-21V" or "5V-21V", in millivolts.</summary>
    public static (int Minimum, int Maximum)? MillivoltRange(string word)
    {
        ArgumentNullException.ThrowIfNull(word);
        string[] ends = word.Replace('–', '-').Split('-');
        if (ends.Length != 2 || Millivolts(ends[1]) is not { } maximum)
        {
            return null;
        }

        string unit = ends[1].EndsWith("mV", StringComparison.OrdinalIgnoreCase) ? "mV" : "V";
        return (Millivolts(ends[0]) ?? Millivolts(ends[0] + unit)) is { } minimum ? (minimum, maximum) : null;
    }

    /// <summary>"3A/3.25A", or "3A" alone, in milliamperes.</summary>
    public static (int First, int? Second)? MilliamperePair(string word)
    {
        ArgumentNullException.ThrowIfNull(word);
        string[] parts = word.Split('/');
        return Milliamperes(parts[0]) is not { } first || parts.Length > 2 ? null
            : parts.Length == 1 ? (first, null)
            : Milliamperes(parts[1]) is { } second ? (first, second) : null;
    }

    /// <summary>"250us", "126ms", "8s", "5min", "2h", in microseconds.</summary>
    public static long? Microseconds(string word)
    {
        ArgumentNullException.ThrowIfNull(word);
        foreach ((string unit, int power, int factor) in TimeUnits)
        {
            if (word.EndsWith(unit, StringComparison.Ordinal)
                && DecimalText.Exact(word.AsSpan()[..^unit.Length], power, factor) is >= -MaxMicroseconds and <= MaxMicroseconds and long us)
            {
                return us;
            }
        }

        return null;
    }

    /// <summary>"0x0801912C".</summary>
    public static uint? Word(string word)
    {
        ArgumentNullException.ThrowIfNull(word);
        return word.StartsWith("0x", StringComparison.OrdinalIgnoreCase)
            && uint.TryParse(word.AsSpan(2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out uint value)
                ? value
                : null;
    }

    private static int? Thousandths(string word, string unit)
    {
        ArgumentNullException.ThrowIfNull(word);
        if (!word.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
        {
            return null;
        }

        ReadOnlySpan<char> number = word.AsSpan()[..^unit.Length];
        bool isThousandth = number.EndsWith('m');
        return DecimalText.Exact(isThousandth ? number[..^1] : number, isThousandth ? 0 : 3) is >= -MaxThousandths and <= MaxThousandths and long amount
            ? (int)amount
            : null;
    }
}
