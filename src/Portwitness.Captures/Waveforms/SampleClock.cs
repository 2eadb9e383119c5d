namespace Portwitness.Captures.Waveforms;

/// <summary>The times of evenly spaced samples.</summary>
/// <param name="Rate">Samples a second.</param>
internal readonly record struct SampleClock(long Rate)
{
    private const long PicosecondsPerSecond = 1_000_000_000_000;

    /// <summary>The time between samples, rounded up, in picoseconds.</summary>
    public long PeriodPs => (PicosecondsPerSecond + Rate - 1) / Rate;

    /// <summary>When a sample was taken, in picoseconds; beyond 2^62, 53 days, time stands still.</summary>
    public long TimeOf(long sample)
    {
        // Whole seconds apart, the rest stays within 64 bits for every rate that is taken.
        (long seconds, long rest) = Math.DivRem(sample, Rate);
        return seconds >= (1L << 62) / PicosecondsPerSecond
            ? 1L << 62
            : (seconds * PicosecondsPerSecond) + (long)((UInt128)rest * PicosecondsPerSecond / (ulong)Rate);
    }
}
