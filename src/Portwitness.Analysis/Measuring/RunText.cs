using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Measuring;

/// <summary>Runs in words.</summary>
internal static class RunText
{
    /// <summary>"17.2 V" of a run of voltages.</summary>
    public static Voltage Volts(this Run run) => Voltage.FromMillivolts(run.Extreme);

    /// <summary>"12 samples over 1.2 s", "1 sample".</summary>
    public static Phrase Extent(this Run run) => run.Samples == 1 ? "1 sample" : Phrase.Of($"{run.Samples} samples over {Time(run.DurationUs)}");

    /// <summary>"at 2.9 A to 3 A", "at 3 A"; empty when the current was not measured.</summary>
    public static Phrase Load(this Run run) => (run.LeastMilliamperes, run.MostMilliamperes) switch
    {
        ({ } least, { } most) when least == most => Phrase.Of($" at {Current.FromMilliamperes(most)}"),
        ({ } least, { } most) => $" at {Current.FromMilliamperes(least)} to {Current.FromMilliamperes(most)}",
        _ => "",
    };

    /// <summary>"12.5 ms", "1.2 s".</summary>
    public static Duration Time(long microseconds) => new(microseconds, DurationForm.Exact);
}
