using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Measuring;

/// <summary>Interruptions in words.</summary>
internal static class InterruptionText
{
    /// <summary>How long VBUS was away, as well as the samples tell it.</summary>
    public static Phrase Duration(Interruption lost)
    {
        if (lost.EndUs is not { } end)
        {
            return $"at least {Milliseconds(lost.LastBelowUs - lost.StartUs)}";
        }

        long least = (lost.LastBelowUs - lost.StartUs) / 1000;
        long most = (end - (lost.LastGoodUs ?? lost.StartUs) + 999) / 1000;
        Duration about = Milliseconds(end - lost.StartUs);
        return most - least <= 2 ? Phrase.Of($"{about}") : $"{about} (between {least} and {most} ms by the samples)";
    }

    /// <summary>The lowest VBUS.</summary>
    public static Voltage Depth(Interruption lost) => Voltage.FromMillivolts(lost.DeepestMillivolts);

    /// <summary>"212 ms".</summary>
    public static Duration Milliseconds(long microseconds) => new(microseconds, DurationForm.Milliseconds);

    /// <summary>"4.753 s".</summary>
    public static Duration Seconds(long microseconds) => new(microseconds, DurationForm.Moment);
}
