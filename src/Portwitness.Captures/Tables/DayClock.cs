namespace Portwitness.Captures.Tables;

/// <summary>Times of day that go on behind midnight: one that is more than half a day before the last one is of the next day.</summary>
internal struct DayClock
{
    private const long DayUs = 86_400_000_000;

    private long _last;
    private long _days;

    /// <summary>The time with the days that have passed; one of more than a day is a date, or counts hours on, and stays as it is.</summary>
    public long GoOn(long microseconds)
    {
        if (microseconds < DayUs && _last - microseconds > DayUs / 2)
        {
            _days += DayUs;
        }

        _last = microseconds;
        return microseconds < DayUs ? microseconds + _days : microseconds;
    }
}
