namespace Portwitness.Captures.Tables;

/// <summary>
/// Turns the times of a table into those of a capture. Numbers count from 0; where the first is negative, or times are
/// those of a clock, the first line of the table is time 0.
/// </summary>
internal sealed class TableClock(int power)
{
    private long? _start;

    /// <summary>Reads a time; false when it cannot be used.</summary>
    public bool TryRead(ReadOnlySpan<byte> cell, out long microseconds)
    {
        if (!TimeText.TryRead(cell, power, out long read, out bool isOfClock))
        {
            microseconds = 0;
            return false;
        }

        _start ??= isOfClock || read < 0 ? read : 0;
        Int128 time = (Int128)read - _start.Value;
        microseconds = (long)Int128.Clamp(time, long.MinValue, long.MaxValue);
        return Int128.Abs(time) <= CaptureLimits.MaximumTimeUs;
    }
}
