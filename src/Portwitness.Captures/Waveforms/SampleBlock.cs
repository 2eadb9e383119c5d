using System.Numerics;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>Gathers samples into blocks, finds the levels of each, and the edges.</summary>
internal sealed class SampleBlock<T>
    where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
{
    private const int Samples = 1 << 16;
    private const long LagPs = 333_333;

    private readonly CcLine _cc;
    private readonly FaultLog _faults;
    private readonly SampleClock? _clock;
    private readonly Levels? _stated;
    private readonly LevelFinder<T> _finder;
    private readonly T[] _values = new T[Samples];
    private readonly long[] _times;
    private int _count;
    private long _first;
    private LineLevel _level;
    private long _lastEdgePs;

    /// <summary>Gathers samples of a line.</summary>
    /// <param name="cc">Takes the edges.</param>
    /// <param name="faults">Takes the faults.</param>
    /// <param name="clock">The times of the samples; null when each comes with its own.</param>
    /// <param name="stated">Levels that were stated; null to find them.</param>
    /// <param name="least">A smaller range is noise.</param>
    public SampleBlock(CcLine cc, FaultLog faults, SampleClock? clock, (int Low, int High)? stated, int least)
    {
        (_cc, _faults, _clock) = (cc, faults, clock);
        _times = clock is null ? new long[Samples] : [];
        _finder = new LevelFinder<T>(least);
        if (stated is { } levels)
        {
            _stated = new Levels(levels.Low, (int)(((long)levels.Low + levels.High) / 2), levels.High);
        }
    }

    /// <summary>Room for more samples, at least one.</summary>
    public Span<T> Room => _values.AsSpan(_count);

    /// <summary>Says how many samples were put into the room.</summary>
    public void Added(int samples)
    {
        _count += samples;
        if (_count == Samples)
        {
            Flush();
        }
    }

    /// <summary>Adds a sample with its time.</summary>
    public void Add(T value, long timePs)
    {
        _values[_count] = value;
        _times[_count] = timePs;
        Added(1);
    }

    /// <summary>Says that nothing is known of the line between two times.</summary>
    public void Interrupt(long timePs, long resumedPs)
    {
        Flush();
        _level = LineLevel.Unknown;
        _cc.Interrupt(Math.Max(timePs, _lastEdgePs), Math.Max(resumedPs, _lastEdgePs));
    }

    /// <summary>Says that the recording ends.</summary>
    public void Complete()
    {
        long end = _count == 0 ? _lastEdgePs : TimeOf(_count - 1);
        Flush();
        _cc.Complete(_clock is { } clock ? clock.TimeOf(_first) : end, _faults);
    }

    private long TimeOf(int index) => _clock is { } clock ? clock.TimeOf(_first + index) : _times[index];

    private void Flush()
    {
        ReadOnlySpan<T> block = _values.AsSpan(0, _count);
        if (_count > 0 && (_stated ?? _finder.Find(block, Lag())) is { } levels)
        {
            FindEdges(block, levels);
        }

        _first += _count;
        _count = 0;
    }

    private int Lag()
    {
        long span = TimeOf(_count - 1) - TimeOf(0);
        long period = _clock is { } clock ? clock.PeriodPs : Math.Max(span / Math.Max(_count - 1, 1), 1);
        _cc.ResolutionPs = period;
        return (int)Math.Clamp(LagPs / period, 1, _count);
    }

    private void FindEdges(ReadOnlySpan<T> block, Levels levels)
    {
        int from = 0;
        if (_level == LineLevel.Unknown)
        {
            int low = FirstLow(block, levels);
            int high = FirstHigh(block, levels);
            if (low < 0 && high < 0)
            {
                return;
            }

            bool isHigh = low < 0 || (high >= 0 && high < low);
            (_level, from) = (isHigh ? LineLevel.High : LineLevel.Low, isHigh ? high : low);
        }

        while (from < block.Length)
        {
            int found = _level == LineLevel.High ? FirstLow(block[from..], levels) : FirstHigh(block[from..], levels);
            if (found < 0)
            {
                return;
            }

            int at = from + found;
            _level = _level == LineLevel.High ? LineLevel.Low : LineLevel.High;
            _lastEdgePs = Math.Max(Crossing(block, at, from, levels.Middle), _lastEdgePs);
            _cc.Edge(_lastEdgePs);
            from = at;
        }
    }

    private static int FirstLow(ReadOnlySpan<T> block, Levels levels) =>
        levels.Low < int.CreateSaturating(T.MinValue) ? -1 : block.IndexOfAnyInRange(T.MinValue, T.CreateSaturating(levels.Low));

    private static int FirstHigh(ReadOnlySpan<T> block, Levels levels) =>
        levels.High > int.CreateSaturating(T.MaxValue) ? -1 : block.IndexOfAnyInRange(T.CreateSaturating(levels.High), T.MaxValue);

    // The sample that is surely beyond is later than the edge: it is where the line crosses the middle, between two samples.
    private long Crossing(ReadOnlySpan<T> block, int at, int from, int middle)
    {
        bool rising = _level == LineLevel.High;
        while (at > from && int.CreateTruncating(block[at - 1]) > middle == rising)
        {
            at--;
        }

        if (at == 0)
        {
            return TimeOf(0);
        }

        long before = int.CreateTruncating(block[at - 1]);
        long after = int.CreateTruncating(block[at]);
        long start = TimeOf(at - 1);
        long length = TimeOf(at) - start;
        return before == after ? start + length : start + (long)((Int128)length * (middle - before) / (after - before));
    }
}
