namespace Portwitness.History;

/// <summary>Times as databases and the contract have them: microseconds since 1970-01-01T00:00:00Z.</summary>
public static class UnixMicroseconds
{
    /// <summary>A time in microseconds; what is finer is cut off.</summary>
    public static long Of(DateTimeOffset time) => (time - DateTimeOffset.UnixEpoch).Ticks / TimeSpan.TicksPerMicrosecond;

    /// <summary>The time of a number of microseconds.</summary>
    public static DateTimeOffset ToTime(long microseconds) => DateTimeOffset.UnixEpoch.AddTicks(microseconds * TimeSpan.TicksPerMicrosecond);
}
