namespace Portwitness.Captures.Tables;

/// <summary>Units of columns, as powers of ten of the base unit: "ms" is -3.</summary>
internal static class TableUnits
{
    private static readonly (string Name, int Power)[] Times =
        [("s", 0), ("sec", 0), ("seconds", 0), ("ms", -3), ("us", -6), ("µs", -6), ("μs", -6), ("ns", -9)];

    private static readonly (string Name, int Power)[] Volts = [("V", 0), ("volts", 0), ("volt", 0), ("mV", -3), ("uV", -6)];

    private static readonly (string Name, int Power)[] Amps = [("A", 0), ("amps", 0), ("amp", 0), ("mA", -3), ("uA", -6)];

    /// <summary>The power of a unit of a kind of column ("time", "volts", "amps"); null when it is none.</summary>
    public static int? PowerOf(string column, string unit)
    {
        foreach ((string name, int power) in column switch { "time" => Times, "volts" => Volts, "amps" => Amps, _ => [] })
        {
            if (string.Equals(name, unit, StringComparison.OrdinalIgnoreCase))
            {
                return power;
            }
        }

        return null;
    }

    /// <summary>Which are known, for messages.</summary>
    public static string Expected(string column) => column switch
    {
        "time" => "s, ms, us or ns",
        "volts" => "V, mV or uV",
        "amps" => "A, mA or uA",
        _ => "no unit",
    };
}
