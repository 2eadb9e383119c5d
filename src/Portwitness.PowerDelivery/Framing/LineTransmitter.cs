namespace Portwitness.PowerDelivery.Framing;

/// <summary>
/// Turns the bits of frames into the edges of a line: BMC, and what a sender does before and after (R3.2v1.1, 5.8.1). It is the
/// receiver's counterpart.
/// </summary>
public sealed class LineTransmitter(LineShape shape)
{
    /// <summary>tHoldLowBMC is at least 1 µs (R3.2v1.1, 5.8.1); the line is released after it.</summary>
    private const long HoldLowPs = 1_500_000;

    private readonly SeededNumbers _jitter = new(shape.Seed);
    private bool _high = shape.IdlesHigh;
    private long _last;

    /// <summary>Sends bits, as <see cref="FrameEncoder"/> gives them, and releases the line.</summary>
    /// <param name="bits">One bit an element, 0 or 1, in the order of sending.</param>
    /// <param name="startPs">When the first bit begins, in picoseconds; after the end of what was sent before.</param>
    /// <param name="edges">Takes the edges in the order of time.</param>
    /// <returns>When the line is released, in picoseconds.</returns>
    public long Send(ReadOnlySpan<byte> bits, long startPs, ICollection<LineEdge> edges)
    {
        ArgumentNullException.ThrowIfNull(edges);
        int halves = 2 * bits.Length;

        // A sender drives the line low first; where it is low already, nothing is to be seen of that.
        Drive(high: false, startPs, edges);
        for (int bit = 0; bit < bits.Length; bit++)
        {
            if (bits[bit] == 1)
            {
                Drive(!_high, TimeOf((2 * bit) + 1, halves, startPs), edges);
            }

            // The end of the last bit shows too, so that a receiver can tell it.
            Drive(!_high, TimeOf((2 * bit) + 2, halves, startPs), edges);
        }

        if (_high)
        {
            Drive(high: false, TimeOf(halves + 2, halves, startPs), edges);
        }

        long released = _last + HoldLowPs;
        Drive(shape.IdlesHigh, released, edges);
        return _last = released;
    }

    private void Drive(bool high, long time, ICollection<LineEdge> edges)
    {
        if (high == _high)
        {
            return;
        }

        long late = 1000L * ((high ? shape.RiseLagNs : 0) + _jitter.Next(-shape.JitterNs, shape.JitterNs));
        _last = Math.Max(time + late, _last + 1);
        _high = high;
        edges.Add(new LineEdge(_last, high));
    }

    // The rate changes evenly: half of the drift has added up at the end.
    private long TimeOf(int half, int halves, long startPs)
    {
        Int128 even = (Int128)half * 1_000_000_000_000 / (2L * shape.BitsPerSecond);
        Int128 gained = even * shape.DriftPpm * half / (2L * Math.Max(halves, 1)) / 1_000_000;
        return startPs + (long)(even - gained);
    }
}
