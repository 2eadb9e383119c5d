using System.Globalization;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Measuring;

/// <summary>Runs in words.</summary>
internal static class RunText
{
    /// <summary>"17.2 V" of a run of voltages.</summary>
    public static string Volts(this Run run) => Voltage.FromMillivolts(run.Extreme).ToString();

    /// <summary>"12 samples over 1.2 s", "1 sample".</summary>
    public static string Extent(this Run run) => run.Samples == 1
        ? "1 sample"
        : string.Create(CultureInfo.InvariantCulture, $"{run.Samples} samples over {Time(run.DurationUs)}");

    /// <summary>"at 2.9 A to 3 A", "at 3 A"; empty when the current was not measured.</summary>
    public static string Load(this Run run) => (run.LeastMilliamperes, run.MostMilliamperes) switch
    {
        ({ } least, { } most) when least == most => $" at {Current.FromMilliamperes(most)}",
        ({ } least, { } most) => $" at {Current.FromMilliamperes(least)} to {Current.FromMilliamperes(most)}",
        _ => "",
    };

    /// <summary>"12.5 ms", "1.2 s".</summary>
    public static string Time(long microseconds) => microseconds < 1_000_000
        ? string.Create(CultureInfo.InvariantCulture, $"{microseconds / 1000m:0.###} ms")
        : string.Create(CultureInfo.InvariantCulture, $"{microseconds / 1_000_000m:0.###} s");
}
