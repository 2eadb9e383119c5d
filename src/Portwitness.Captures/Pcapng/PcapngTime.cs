namespace Portwitness.Captures.Pcapng;

/// <summary>Between dates and microseconds since 1970.</summary>
internal static class PcapngTime
{
    // A clock that was never set counts from 1970; its day says nothing.
    private const long FirstDayUs = 86_400_000_000;

    /// <summary>The last whole microsecond that is not after a date.</summary>
    public static long Floor(DateTimeOffset date)
    {
        long ticks = date.UtcTicks - DateTimeOffset.UnixEpoch.Ticks;
        return (ticks - (((ticks % TimeSpan.TicksPerMicrosecond) + TimeSpan.TicksPerMicrosecond) % TimeSpan.TicksPerMicrosecond))
            / TimeSpan.TicksPerMicrosecond;
    }

    /// <summary>The date, or null when it is none that a clock would show.</summary>
    public static DateTimeOffset? Started(long microseconds) =>
        microseconds < FirstDayUs || microseconds > Floor(DateTimeOffset.MaxValue)
            ? null
            : DateTimeOffset.UnixEpoch.AddTicks(microseconds * TimeSpan.TicksPerMicrosecond);
}
