using Portwitness.Text;

namespace Portwitness.Captures.Tables;

/// <summary>What the two parts of a time of a clock are: 9:14 may be hours and minutes, or minutes and seconds.</summary>
internal enum ClockParts
{
    /// <summary>Not stated.</summary>
    Unstated,

    /// <summary>Hours and minutes.</summary>
    HoursAndMinutes,

    /// <summary>Minutes and seconds.</summary>
    MinutesAndSeconds,
}

/// <summary>The unit of a column: its numbers times the factor, times ten to the power, are of the base unit.</summary>
/// <param name="Power">The power of ten: -3 of "ms".</param>
/// <param name="Factor">The factor: 60 of "min".</param>
/// <param name="Parts">What two parts of a clock are in a column of this unit.</param>
internal readonly record struct TableUnit(int Power, int Factor = 1, ClockParts Parts = ClockParts.Unstated)
{
    /// <summary>Reads a number of this unit.</summary>
    /// <param name="text">The cell, blanks taken off.</param>
    /// <param name="finer">Power of ten of the base unit in what is wanted: 6 for microseconds.</param>
    /// <param name="value">The result, rounded to the nearest.</param>
    public bool TryRead(ReadOnlySpan<byte> text, int finer, out long value) =>
        DecimalText.TryRead(text, Power + finer, out value, factor: Math.Max(Factor, 1));
}

/// <summary>Units of columns, and formats of clocks.</summary>
internal static class TableUnits
{
    private const ClockParts Hours = ClockParts.HoursAndMinutes;
    private const ClockParts Minutes = ClockParts.MinutesAndSeconds;

    private static readonly string[] Kinds = ["time", "volts", "amps", "charge", "energy"];

    private static readonly (string Name, TableUnit Unit)[] Times =
    [
        ("s", new(0, 1, Minutes)), ("sec", new(0, 1, Minutes)), ("secs", new(0, 1, Minutes)), ("second", new(0, 1, Minutes)),
        ("seconds", new(0, 1, Minutes)), ("ms", new(-3)), ("us", new(-6)), ("µs", new(-6)), ("μs", new(-6)), ("ns", new(-9)),
        ("min", new(0, 60, Minutes)), ("mins", new(0, 60, Minutes)), ("minute", new(0, 60, Minutes)), ("minutes", new(0, 60, Minutes)),
        ("h", new(0, 3600, Hours)), ("hr", new(0, 3600, Hours)), ("hrs", new(0, 3600, Hours)), ("hour", new(0, 3600, Hours)),
        ("hours", new(0, 3600, Hours)),
    ];

    private static readonly (string Name, TableUnit Unit)[] Volts =
        [("V", new(0)), ("volts", new(0)), ("volt", new(0)), ("mV", new(-3)), ("uV", new(-6)), ("µV", new(-6)), ("μV", new(-6))];

    private static readonly (string Name, TableUnit Unit)[] Amps =
        [("A", new(0)), ("amps", new(0)), ("amp", new(0)), ("mA", new(-3)), ("uA", new(-6)), ("µA", new(-6)), ("μA", new(-6))];

    private static readonly (string Name, TableUnit Unit)[] Charges = [("Ah", new(0)), ("mAh", new(-3))];

    private static readonly (string Name, TableUnit Unit)[] Energies = [("Wh", new(0)), ("mWh", new(-3))];

    /// <summary>The unit of a kind of column ("time", "volts", "amps", "charge", "energy"); null when it is none of that kind.</summary>
    public static TableUnit? Find(string column, string unit)
    {
        foreach ((string name, TableUnit known) in Of(column))
        {
            if (string.Equals(name, unit, StringComparison.OrdinalIgnoreCase))
            {
                return known;
            }
        }

        return column == "time" && Format(unit) is var parts and not ClockParts.Unstated ? new TableUnit(0, 1, parts) : null;
    }

    /// <summary>Whether it is a unit of any kind of column.</summary>
    public static bool IsAny(string unit) =>
        Array.Exists(Kinds, column => Find(column, unit) is not null);

    /// <summary>Which are known, for messages.</summary>
    public static string Expected(string column) => column switch
    {
        "time" => "s, ms, us, ns, min or h, or hh:mm or mm:ss of a clock",
        "volts" => "V, mV or uV",
        "amps" => "A, mA or uA",
        _ => "no unit",
    };

    private static (string Name, TableUnit Unit)[] Of(string column) => column switch
    {
        "time" => Times,
        "volts" => Volts,
        "amps" => Amps,
        "charge" => Charges,
        "energy" => Energies,
        _ => [],
    };

    // "hh:mm", "H:mm:ss", "mm:ss.fff". In a column of three parts, two are minutes and seconds.
    private static ClockParts Format(string text)
    {
        int end = text.IndexOfAny(['.', ',']);
        string[] parts = (end < 0 ? text : text[..end]).ToLowerInvariant().Split(':');
        return !Array.TrueForAll(parts, static part => part.Length is 1 or 2 && part[0] == part[^1]) ? ClockParts.Unstated
            : string.Concat(parts.Select(static part => part[0])) switch
            {
                "hm" => Hours,
                "ms" or "hms" => Minutes,
                _ => ClockParts.Unstated,
            };
    }
}
