using System.Collections.Immutable;

namespace Portwitness.Analysis.Plots;

/// <summary>
/// Keeps measurements for a plot in bounded memory: when there are too many stretches, neighbours become one, with their extremes, so
/// that no dip is lost however short.
/// </summary>
internal sealed class Trace
{
    /// <summary>At most so many stretches are kept; an even number.</summary>
    public const int Most = 600;

    private readonly List<TraceSpan> _spans = [];
    private long _perSpan = 1;
    private long _inLast;

    /// <summary>All that was kept, in the order in which it was taken.</summary>
    public ImmutableArray<TraceSpan> Spans => [.. _spans];

    /// <summary>Takes a measurement.</summary>
    public void Add(long timeUs, int? millivolts, int? milliamperes)
    {
        TraceSpan taken = new(timeUs, timeUs, millivolts, millivolts, milliamperes, milliamperes);
        if (_spans.Count > 0 && _inLast < _perSpan)
        {
            _spans[^1] = _spans[^1].And(taken);
            _inLast++;
            return;
        }

        if (_spans.Count == Most)
        {
            Halve();
        }

        _spans.Add(taken);
        _inLast = 1;
    }

    private void Halve()
    {
        for (int at = 0; at < Most / 2; at++)
        {
            _spans[at] = _spans[2 * at].And(_spans[(2 * at) + 1]);
        }

        _spans.RemoveRange(Most / 2, Most / 2);
        _perSpan *= 2;
    }
}
