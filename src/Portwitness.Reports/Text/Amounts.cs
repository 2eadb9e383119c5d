using System.Globalization;

namespace Portwitness.Reports.Text;

/// <summary>Quantities for people. A value that is not known is "?".</summary>
internal static class Amounts
{
    public const string Unknown = "?";

    public static string Volts(int? millivolts) => Thousandths(millivolts, "V");

    public static string Amperes(int? milliamperes) => Thousandths(milliamperes, "A");

    public static string Watts(long? milliwatts) => Thousandths(milliwatts, "W");

    public static string WattHours(long milliwattHours) => Thousandths(milliwattHours, "Wh");

    public static string VoltRange(int? minimum, int? maximum) => minimum is null || maximum is null
        ? $"{Volts(minimum)} to {Volts(maximum)}"
        : string.Create(CultureInfo.InvariantCulture, $"{minimum / 1000m:0.###} to {maximum / 1000m:0.###} V");

    /// <summary>Seconds with the microseconds kept.</summary>
    public static string Seconds(long microseconds) =>
        string.Create(CultureInfo.InvariantCulture, $"{microseconds / 1000000m:0.000000} s");

    /// <summary>"502 ms", "12.5 s", "10 min 2 s", "3 h 5 min".</summary>
    public static string Duration(long microseconds) => microseconds switch
    {
        < 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{(microseconds + 500) / 1000} ms"),
        < 60_000_000 => string.Create(CultureInfo.InvariantCulture, $"{microseconds / 100_000 / 10m:0.#} s"),
        < 3_600_000_000 => string.Create(CultureInfo.InvariantCulture, $"{microseconds / 60_000_000} min {microseconds / 1_000_000 % 60} s"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{microseconds / 3_600_000_000} h {microseconds / 60_000_000 % 60} min"),
    };

    /// <summary>mV times mA is µW; rounded half up to the milliwatt.</summary>
    public static long? Milliwatts(int? millivolts, int? milliamperes) =>
        millivolts is null || milliamperes is null ? null : (((long)millivolts * milliamperes.Value) + 500) / 1000;

    public static string Count(long count, string one, string many) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    /// <summary>"line 2, column 9".</summary>
    public static string Place(int line, int column) => string.Create(CultureInfo.InvariantCulture, $"line {line}, column {column}");

    public static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);

    public static int Digits(int value) => Number(value).Length;

    private static string Thousandths(long? value, string unit) => value is null
        ? Unknown
        : string.Create(CultureInfo.InvariantCulture, $"{value / 1000m:0.###} {unit}");
}
