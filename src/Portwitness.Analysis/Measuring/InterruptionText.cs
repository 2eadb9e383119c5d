using System.Globalization;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Measuring;

/// <summary>Interruptions in words.</summary>
internal static class InterruptionText
{
    /// <summary>How long VBUS was away, as well as the samples tell it.</summary>
    public static string Duration(Interruption lost)
    {
        if (lost.EndUs is not { } end)
        {
            return $"at least {Milliseconds(lost.LastBelowUs - lost.StartUs)}";
        }

        long least = (lost.LastBelowUs - lost.StartUs) / 1000;
        long most = (end - (lost.LastGoodUs ?? lost.StartUs) + 999) / 1000;
        string about = Milliseconds(end - lost.StartUs);
        return most - least <= 2 ? about : string.Create(CultureInfo.InvariantCulture, $"{about} (between {least} and {most} ms by the samples)");
    }

    /// <summary>The lowest VBUS.</summary>
    public static string Depth(Interruption lost) => Voltage.FromMillivolts(lost.DeepestMillivolts).ToString();

    /// <summary>"212 ms".</summary>
    public static string Milliseconds(long microseconds) => string.Create(CultureInfo.InvariantCulture, $"{(microseconds + 500) / 1000} ms");

    /// <summary>"4.753 s".</summary>
    public static string Seconds(long microseconds) => string.Create(CultureInfo.InvariantCulture, $"{microseconds / 1_000_000m:0.000} s");
}
