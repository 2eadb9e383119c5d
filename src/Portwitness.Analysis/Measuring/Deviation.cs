using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Measuring;

/// <summary>Runs of samples outside a band: beyond doubt, and as they read, which the instrument's uncertainty may explain.</summary>
/// <param name="band">Where VBUS may be.</param>
public sealed class Deviation(VoltageBand band)
{
    /// <summary>Where VBUS may be.</summary>
    public VoltageBand Band => band;

    /// <summary>Above it, uncertainty taken off.</summary>
    public RunTracker High { get; } = new(1);

    /// <summary>Above it as read.</summary>
    public RunTracker HighAsRead { get; } = new(1);

    /// <summary>Below it, uncertainty added.</summary>
    public RunTracker Low { get; } = new(-1);

    /// <summary>Below it as read.</summary>
    public RunTracker LowAsRead { get; } = new(-1);

    /// <summary>Takes a sample; a low one may be excused by the load.</summary>
    public void Add(Sample sample, int uncertainty, bool excused)
    {
        (long at, int volts, int? amperes) = (sample.TimeUs, sample.Millivolts, sample.Milliamperes);
        High.Add(volts - uncertainty > band.Maximum.Millivolts, at, volts, amperes);
        HighAsRead.Add(volts > band.Maximum.Millivolts, at, volts, amperes);
        Low.Add(!excused && volts + uncertainty < band.Minimum.Millivolts, at, volts, amperes);
        LowAsRead.Add(!excused && volts < band.Minimum.Millivolts, at, volts, amperes);
    }

    /// <summary>Nothing follows.</summary>
    public void End()
    {
        High.End();
        HighAsRead.End();
        Low.End();
        LowAsRead.End();
    }

    /// <summary>Drops runs that are not over yet and began after a time.</summary>
    public void DropSince(long timeUs, bool lowOnly)
    {
        Low.DropSince(timeUs);
        LowAsRead.DropSince(timeUs);
        if (!lowOnly)
        {
            High.DropSince(timeUs);
            HighAsRead.DropSince(timeUs);
        }
    }

    /// <summary>Forgets everything.</summary>
    public void Clear()
    {
        High.Clear();
        HighAsRead.Clear();
        Low.Clear();
        LowAsRead.Clear();
    }
}
