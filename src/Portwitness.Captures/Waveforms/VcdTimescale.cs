namespace Portwitness.Captures.Waveforms;

/// <summary>The unit of a dump's times in picoseconds, as a ratio: one of them is 1.</summary>
internal readonly record struct VcdTimescale(long PicosecondsPerTick, long TicksPerPicosecond)
{
    // The receiver's clock runs to 2^62 picoseconds, 53 days.
    private const long MaxPicoseconds = 1L << 62;

    private static readonly (string Name, long Femtoseconds)[] Units =
    [
        ("s", 1_000_000_000_000_000), ("ms", 1_000_000_000_000), ("us", 1_000_000_000), ("ns", 1_000_000), ("ps", 1_000), ("fs", 1),
    ];

    /// <summary>So many ticks in picoseconds, at least one.</summary>
    public long Round(long ticks) => Math.Max(ticks / TicksPerPicosecond, 1) * PicosecondsPerTick;

    /// <summary>Reads "1 ns" or "1ns"; null when it is none that the standard knows.</summary>
    public static VcdTimescale? TryParse(IReadOnlyList<byte[]> words)
    {
        string text = string.Concat(words.Select(word => System.Text.Encoding.UTF8.GetString(word)));
        foreach ((string name, long femtoseconds) in Units)
        {
            foreach (int count in new[] { 1, 10, 100 })
            {
                if (text == $"{count}{name}")
                {
                    long tick = femtoseconds * count;
                    return tick >= 1000 ? new VcdTimescale(tick / 1000, 1) : new VcdTimescale(1, 1000 / tick);
                }
            }
        }

        return null;
    }

    /// <summary>A time in picoseconds; false when it is beyond what is read.</summary>
    public bool TryConvert(long ticks, out long picoseconds)
    {
        picoseconds = TicksPerPicosecond == 1 ? unchecked(ticks * PicosecondsPerTick) : ticks / TicksPerPicosecond;
        return ticks <= MaxPicoseconds / PicosecondsPerTick;
    }
}
