using System.Globalization;

namespace Portwitness.Analysis.Energy;

/// <summary>Measured amounts as findings print them.</summary>
internal static class EnergyText
{
    /// <summary>µAh as "9876.5 mAh".</summary>
    public static string Charge(long microampereHours) => Text(microampereHours / 1000m, "0.#", "mAh");

    /// <summary>µWh as "36.52 Wh".</summary>
    public static string Energy(long microwattHours) => Text(microwattHours / 1_000_000m, "0.###", "Wh");

    /// <summary>µV as "4.952 V".</summary>
    public static string Volts(long microvolts) => Text(microvolts / 1_000_000m, "0.###", "V");

    /// <summary>µA as "2.005 A".</summary>
    public static string Amperes(long microamperes) => Text(microamperes / 1_000_000m, "0.###", "A");

    /// <summary>Millionths as "83.2 %".</summary>
    public static string Percent(long ppm) => Text(ppm / 10_000m, "0.#", "%");

    /// <summary>µs as "1 h 12 min 5 s", "5.2 s" or "18.7 ms".</summary>
    public static string Time(long us)
    {
        if (us < 1_000_000)
        {
            return Text(us / 1000m, "0.#", "ms");
        }

        if (us < 60_000_000)
        {
            return Text(us / 1_000_000m, "0.#", "s");
        }

        long seconds = (us + 500_000) / 1_000_000;
        string hours = seconds >= 3600 ? string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600} h ") : "";
        return string.Create(CultureInfo.InvariantCulture, $"{hours}{seconds / 60 % 60} min {seconds % 60} s");
    }

    /// <summary>"9800 mAh (9741 to 9859 mAh)".</summary>
    public static string Between(MeasuredAmount amount, Func<long, string> text) =>
        $"{text(amount.Value)} ({text(amount.Least)} to {(amount.Most is { } most ? text(most) : "an amount that is open")})";

    private static string Text(decimal value, string format, string unit) => value.ToString(format, CultureInfo.InvariantCulture) + " " + unit;
}
