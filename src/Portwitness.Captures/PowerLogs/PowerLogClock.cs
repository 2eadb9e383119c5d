using Portwitness.Captures.Tables;

namespace Portwitness.Captures.PowerLogs;

/// <summary>
/// Times of a log. Numbers are kept as they are; those of a clock count from the first and go on behind midnight. Any other
/// step back is the logger's, and is left for whoever adds up.
/// </summary>
internal sealed class PowerLogClock
{
    private DayClock _day;
    private long? _first;

    /// <summary>A time of the log; false when it is too far off to be used.</summary>
    public bool TryPlace(long read, TimeForm form, out long microseconds)
    {
        microseconds = read;
        if (form != TimeForm.Number)
        {
            microseconds = _day.GoOn(read);
            _first ??= microseconds;
            microseconds -= _first.Value;
        }

        return Int128.Abs(microseconds) <= CaptureLimits.MaximumTimeUs;
    }
}
