namespace Portwitness.PowerDelivery.Framing;

/// <summary>
/// Looks for the beginning of a frame in the edges of a line: idle, then intervals of one unit interval (a 0) and two halves
/// (a 1) in turn. Of a line that is busy without that, it remembers from when to when.
/// </summary>
internal sealed class PreambleSearch
{
    /// <summary>A line with fewer than three edges in this time is idle (R3.2v1.1, 5.8.6.1, tTransitionWindow: 12 to 20 µs).</summary>
    public const long IdlePs = 12_000_000;

    /// <summary>Unit intervals that are looked for: 450 to 200 kbit/s, half again what the standard allows.</summary>
    private const long ShortestUnitInterval = 2_222_222;
    private const long LongestUnitInterval = 5_000_000;

    // What edges of a frame can be apart at these rates, with a quarter to spare.
    private const long ShortestInterval = ShortestUnitInterval / 4;
    private const long LongestInterval = LongestUnitInterval * 5 / 4;

    /// <summary>Edges that are kept.</summary>
    public const int Kept = 6;

    private readonly long[] _edges = new long[Kept];

    /// <summary>Edges since the line was idle, or since the search began anew.</summary>
    public int Edges { get; private set; }

    /// <summary>Whether the line was idle before them.</summary>
    public bool IdleBefore { get; private set; }

    /// <summary>Whether the line is idle at a time, an edge that comes then not counted.</summary>
    public bool IsIdleAt(long edge) => edge - _edges[1] > IdlePs;

    /// <summary>First of the latest edges that follow each other as those of a frame do.</summary>
    public long BusyFrom { get; private set; }

    /// <summary>How many these are.</summary>
    public int BusyEdges { get; private set; }

    /// <summary>The latest edge.</summary>
    public long LastEdge => _edges[0];

    /// <summary>Begins when the recording does: whether the line is idle is not known.</summary>
    public void Begin(long time)
    {
        Array.Fill(_edges, time);
        (Edges, BusyEdges, IdleBefore) = (0, 0, false);
    }

    /// <summary>Begins anew after a frame, with the line still busy.</summary>
    public void Restart() => (Edges, BusyEdges, IdleBefore) = (0, 0, false);

    /// <summary>Takes an edge without looking for a frame.</summary>
    public void Note(long edge)
    {
        long interval = edge - LastEdge;
        bool isBusy = Edges > 0 && interval is >= ShortestInterval and <= LongestInterval;
        BusyEdges = isBusy ? BusyEdges + 1 : 1;
        BusyFrom = isBusy ? BusyFrom : edge;
        Array.Copy(_edges, 0, _edges, 1, _edges.Length - 1);
        _edges[0] = edge;
        Edges++;
    }

    /// <summary>Takes an edge; true when the bits 0 and 1 end with it.</summary>
    public bool OnEdge(long edge, out long start, out long unitInterval)
    {
        if (IsIdleAt(edge))
        {
            // The edge before may be the first of a frame already.
            int counted = edge - LastEdge > IdlePs ? 0 : Math.Min(Edges, 1);
            (Edges, BusyEdges, BusyFrom, IdleBefore) = (counted, counted, LastEdge, true);
        }

        Note(edge);
        return Fits(out start, out unitInterval);
    }

    /// <summary>The latest edges after a time, oldest first; how many there are.</summary>
    public int CopyAfter(long time, Span<long> edges)
    {
        int count = 0;
        for (int ago = _edges.Length - 1; ago >= 0; ago--)
        {
            if (_edges[ago] > time)
            {
                edges[count++] = _edges[ago];
            }
        }

        return count;
    }

    private bool Fits(out long start, out long unitInterval)
    {
        long both = _edges[0] - _edges[3];
        (start, unitInterval) = (_edges[3], both / 2);
        if (Edges < 4 || unitInterval is < ShortestUnitInterval or > LongestUnitInterval
            || !IsAbout(4, _edges[2] - _edges[3], both) || !IsAbout(2, _edges[1] - _edges[2], both)
            || !IsAbout(2, _edges[0] - _edges[1], both))
        {
            return false;
        }

        // Where the first 0 begins without a change of level, the two halves of the first 1 stand before.
        if (Edges >= 6 && IsAbout(2, _edges[3] - _edges[4], both) && IsAbout(2, _edges[4] - _edges[5], both))
        {
            start = _edges[5];
        }

        return true;
    }

    // An interval of so many eighths of two bits, an eighth (a quarter of a unit interval) more or less.
    private static bool IsAbout(int eighths, long interval, long both) =>
        8 * interval >= (eighths - 1) * both && 8 * interval <= (eighths + 1) * both;
}
