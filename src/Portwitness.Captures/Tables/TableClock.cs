namespace Portwitness.Captures.Tables;

/// <summary>
/// Turns the times of a table into those of a capture. Numbers count from 0; where the first is negative, or times are
/// those of a clock, the first line of the table is time 0. A clock goes on behind midnight.
/// </summary>
/// <param name="unit">The column's unit; null when nothing states it.</param>
internal sealed class TableClock(TableUnit? unit)
{
    private ClockParts _parts = unit?.Parts ?? ClockParts.Unstated;
    private DayClock _day;
    private long? _start;

    /// <summary>The last time has two parts, and neither its column nor a row before it tells which: it was not read.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>Reads a time; false when it cannot be used.</summary>
    public bool TryRead(ReadOnlySpan<byte> cell, out long microseconds)
    {
        bool isTime = TimeText.TryRead(cell, unit ?? default, out microseconds, out TimeForm form);
        if (isTime && form == TimeForm.Clock && _parts == ClockParts.Unstated)
        {
            _parts = ClockParts.MinutesAndSeconds;
        }

        IsOpen = isTime && form == TimeForm.TwoParts && _parts == ClockParts.Unstated;
        if (!isTime || IsOpen)
        {
            microseconds = 0;
            return false;
        }

        long read = form == TimeForm.TwoParts && _parts == ClockParts.HoursAndMinutes ? microseconds * 60 : microseconds;
        read = form == TimeForm.Number ? read : _day.GoOn(read);
        _start ??= form != TimeForm.Number || read < 0 ? read : 0;
        Int128 time = (Int128)read - _start.Value;
        microseconds = (long)Int128.Clamp(time, long.MinValue, long.MaxValue);
        return Int128.Abs(time) <= CaptureLimits.MaximumTimeUs;
    }
}
