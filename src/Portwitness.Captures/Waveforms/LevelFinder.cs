using System.Numerics;

namespace Portwitness.Captures.Waveforms;

/// <summary>Where low ends, where high begins, and the middle that an edge is timed by.</summary>
internal readonly record struct Levels(int Low, int Middle, int High);

/// <summary>
/// Finds the levels of a line in a block of samples: the middle is the average of where the line moves, weighted by how far it
/// moves within a third of a microsecond, so that neither the level of the idle line nor slow edges draw it to one side. An
/// eighth of the block's range either way is hysteresis.
/// </summary>
/// <param name="least">A smaller range is noise, whatever came before.</param>
internal sealed class LevelFinder<T>(int least)
    where T : struct, IBinaryInteger<T>, IMinMaxValue<T>
{
    private const int Eighths = 8;
    private const int FewMoves = 32;
    private const int NormalBits = 15;

    private int _usualRange;
    private Levels? _levels;

    /// <summary>The levels; null when the line is idle throughout the block.</summary>
    /// <param name="block">The samples.</param>
    /// <param name="lag">How many samples make a third of a microsecond.</param>
    public Levels? Find(ReadOnlySpan<T> block, int lag)
    {
        (int lowest, int highest) = Extremes(block);
        int range = highest - lowest;
        if (range < least || range < _usualRange / 2)
        {
            return null;
        }

        (int moves, int middle) = Middle(block, lag, lowest, range);
        if (moves >= FewMoves || _levels is null)
        {
            if (moves == 0)
            {
                return null;
            }

            // A block with frames says what is usual; a step when a plug goes in does not.
            _usualRange = moves >= FewMoves ? range : _usualRange;
            _levels = new Levels(middle - (range / Eighths), middle, middle + (range / Eighths));
        }

        return _levels;
    }

    private static (int Lowest, int Highest) Extremes(ReadOnlySpan<T> block)
    {
        T lowest = block[0];
        T highest = block[0];
        int at = 0;
        if (block.Length >= Vector<T>.Count)
        {
            Vector<T> low = new(block);
            Vector<T> high = low;
            for (; at <= block.Length - Vector<T>.Count; at += Vector<T>.Count)
            {
                Vector<T> next = new(block[at..]);
                (low, high) = (Vector.Min(low, next), Vector.Max(high, next));
            }

            for (int lane = 0; lane < Vector<T>.Count; lane++)
            {
                (lowest, highest) = (T.Min(lowest, low[lane]), T.Max(highest, high[lane]));
            }
        }

        for (; at < block.Length; at++)
        {
            (lowest, highest) = (T.Min(lowest, block[at]), T.Max(highest, block[at]));
        }

        return (int.CreateTruncating(lowest), int.CreateTruncating(highest));
    }

    private static (int Moves, int Middle) Middle(ReadOnlySpan<T> block, int lag, int lowest, int range)
    {
        // Ranges are brought to fifteen bits, so that sums over a block stay within 64.
        int shift = Math.Max(32 - BitOperations.LeadingZeroCount((uint)range) - NormalBits, 0);
        int enough = range / Eighths;
        long weights = 0;
        long sum = 0;
        int moves = 0;
        for (int i = lag; i < block.Length; i++)
        {
            int before = int.CreateTruncating(block[i - lag]) - lowest;
            int now = int.CreateTruncating(block[i]) - lowest;
            int move = Math.Abs(now - before);
            if (move > enough)
            {
                long weight = move >> shift;
                weights += weight;
                sum += weight * ((before + (long)now) >> shift);
                moves++;
            }
        }

        return weights == 0 ? (0, 0) : (moves, lowest + (int)((sum << shift) / (2 * weights)));
    }
}
