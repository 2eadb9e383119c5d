namespace Portwitness.Analysis.Measuring;

/// <summary>The least and the most of what was measured in the last half second. Its size does not depend on the number of samples.</summary>
public sealed class RecentSamples
{
    /// <summary>A port that tells of its output may have measured it so long before (common practice, no source).</summary>
    public const long WindowUs = 500_000;

    private const int Slices = 10;
    private const long SliceUs = WindowUs / Slices;

    private readonly Slice[] _slices = new Slice[Slices + 1];

    /// <summary>Takes a sample; a value that was not measured is null.</summary>
    public void Add(long timeUs, int? millivolts, int? milliamperes)
    {
        long number = timeUs / SliceUs;
        ref Slice slice = ref _slices[number % _slices.Length];
        if (slice.Number != number || slice.IsEmpty)
        {
            slice = new Slice { Number = number, Volts = Range.None, Amps = Range.None };
        }

        slice.Volts = slice.Volts.With(millivolts);
        slice.Amps = slice.Amps.With(milliamperes is { } amps ? Math.Abs(amps) : null);
    }

    /// <summary>Millivolts in the window that ends now.</summary>
    public Range VoltsUntil(long timeUs) => Over(timeUs, static slice => slice.Volts);

    /// <summary>The amount of the current, in milliamperes, in the window that ends now.</summary>
    public Range AmpsUntil(long timeUs) => Over(timeUs, static slice => slice.Amps);

    private Range Over(long timeUs, Func<Slice, Range> of)
    {
        long last = timeUs / SliceUs;
        Range all = Range.None;
        foreach (Slice slice in _slices)
        {
            all = !slice.IsEmpty && slice.Number > last - _slices.Length && slice.Number <= last ? all.With(of(slice)) : all;
        }

        return all;
    }

    /// <summary>What values lie between.</summary>
    /// <param name="Least">The least.</param>
    /// <param name="Most">The most.</param>
    /// <param name="Count">How many there were.</param>
    public readonly record struct Range(int Least, int Most, int Count)
    {
        /// <summary>No values.</summary>
        public static Range None { get; } = new(int.MaxValue, int.MinValue, 0);

        /// <summary>Fewer values say nothing of what lies between them.</summary>
        public bool IsEnough => Count >= Run.LeastSamples;

        internal Range With(int? value) => value is { } one ? new(Math.Min(Least, one), Math.Max(Most, one), Count + 1) : this;

        internal Range With(Range other) => new(Math.Min(Least, other.Least), Math.Max(Most, other.Most), Count + other.Count);
    }

    private struct Slice
    {
        public long Number;
        public Range Volts;
        public Range Amps;

        public readonly bool IsEmpty => Volts.Count + Amps.Count == 0;
    }
}
