using System.Globalization;

namespace Portwitness.Analysis.Synthesis;

/// <summary>Amounts with their unit, as people write them: "3.25A", "500mA", "5-21V", "60W", "8s". Null when the word is none.</summary>
internal static class Amounts
{
    private static readonly (string Unit, long Us)[] TimeUnits =
        [("us", 1), ("ms", 1_000), ("min", 60_000_000), ("s", 1_000_000), ("h", 3_600_000_000)];

    public static int? Millivolts(string word) => Milli(word, "V");

    public static int? Milliamperes(string word) => Milli(word, "A");

    public static int? Milliwatts(string word) => Milli(word, "W");

    /// <summary>"5-21V" or "5V-21V".</summary>
    public static (int Minimum, int Maximum)? MillivoltRange(string word)
    {
        string[] ends = word.Replace('–', '-').Split('-');
        if (ends.Length != 2 || Millivolts(ends[1]) is not { } maximum)
        {
            return null;
        }

        string unit = ends[1].EndsWith("mV", StringComparison.OrdinalIgnoreCase) ? "mV" : "V";
        return (Millivolts(ends[0]) ?? Millivolts(ends[0] + unit)) is { } minimum ? (minimum, maximum) : null;
    }

    /// <summary>"3A/3.25A", or "3A" alone.</summary>
    public static (int First, int? Second)? MilliamperePair(string word)
    {
        string[] parts = word.Split('/');
        return Milliamperes(parts[0]) is not { } first || parts.Length > 2 ? null
            : parts.Length == 1 ? (first, null)
            : Milliamperes(parts[1]) is { } second ? (first, second) : null;
    }

    /// <summary>"250us", "126ms", "8s", "5min", "2h", in microseconds.</summary>
    public static long? Microseconds(string word)
    {
        foreach ((string unit, long us) in TimeUnits)
        {
            if (word.EndsWith(unit, StringComparison.Ordinal) && Number(word[..^unit.Length]) is { } number
                && Math.Abs(number) <= (decimal)ScriptWalk.MostUs / us && number * us % 1 == 0)
            {
                return (long)(number * us);
            }
        }

        return null;
    }

    /// <summary>"0x0801912C".</summary>
    public static uint? Word(string word) =>
        word.StartsWith("0x", StringComparison.OrdinalIgnoreCase)
        && uint.TryParse(word.AsSpan(2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out uint value)
            ? value
            : null;

    private static int? Milli(string word, string unit)
    {
        if (!word.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
        {
            return null;
        }

        string number = word[..^unit.Length];
        bool milli = number.EndsWith('m');
        decimal? value = Number(milli ? number[..^1] : number) * (milli ? 1 : 1000);
        return value is { } whole && whole % 1 == 0 && Math.Abs(whole) <= Captures.CaptureLimits.MaximumMeasurement
            ? (int)whole
            : null;
    }

    private static decimal? Number(string text) =>
        text.Length <= 20 && decimal.TryParse(
            text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out decimal value)
        && (value >= 0 || text.StartsWith('-'))
            ? value
            : null;
}
