using Portwitness.Captures.Tables;

namespace Portwitness.Captures.PowerLogs;

/// <summary>
/// Times of a log. Numbers are kept as they are; those of a clock count from the first. A time of day that falls by more than
/// half a day has passed midnight; any other step back is the logger's, and is left for whoever adds up.
/// </summary>
internal sealed class PowerLogClock
{
    private const long DayUs = 86_400_000_000;

    private long? _first;
    private long _days;
    private long _last;

    /// <summary>Reads a time; false when it cannot be used.</summary>
    public bool TryRead(ReadOnlySpan<byte> cell, int power, out long microseconds, out bool isOfClock)
    {
        if (!TimeText.TryRead(cell, power, out microseconds, out isOfClock))
        {
            return false;
        }

        if (isOfClock)
        {
            if (microseconds < DayUs && _last - microseconds > DayUs / 2)
            {
                _days += DayUs;
            }

            _last = microseconds;
            microseconds += microseconds < DayUs ? _days : 0;
            _first ??= microseconds;
            microseconds -= _first.Value;
        }

        return Int128.Abs(microseconds) <= CaptureLimits.MaximumTimeUs;
    }
}
