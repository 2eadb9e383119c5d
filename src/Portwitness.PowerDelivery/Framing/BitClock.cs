namespace Portwitness.PowerDelivery.Framing;

/// <summary>What an edge means to a bit clock.</summary>
internal enum ClockStep
{
    /// <summary>The middle of a bit that will be a 1.</summary>
    Middle,

    /// <summary>The end of a 0.</summary>
    Zero,

    /// <summary>The end of a 1.</summary>
    One,

    /// <summary>Neither.</summary>
    Misplaced,
}

/// <summary>
/// Tells bits from edges (BMC: every bit begins with a change of level, a 1 has another one in its middle; R3.2v1.1, 5.8.1).
/// The unit interval is the average of the last 32 bits, so that it follows a sender whose rate drifts.
/// </summary>
internal sealed class BitClock
{
    // Of the starts of bits, 32 make the average; an ordered set later they are still wanted for the preamble's rate.
    private const int Kept = 64;
    private const int Averaged = 32;
    private const int FirstAverage = 4;
    private const int FirstBitsWithoutJitter = 16;

    private readonly long[] _starts = new long[Kept];
    private long _unitInterval;
    private long _worstJitter;
    private int _preambleRate;
    private bool _inMiddle;

    /// <summary>Bits that have ended.</summary>
    public int Bits { get; private set; }

    /// <summary>When the first bit began.</summary>
    public long FirstStart { get; private set; }

    /// <summary>When the present bit began, and the last one ended.</summary>
    public long Start { get; private set; }

    /// <summary>Bits of the preamble; -1 while it lasts.</summary>
    public int PreambleBits { get; private set; }

    /// <summary>When the preamble ended.</summary>
    public long PreambleEnd { get; private set; }

    /// <summary>What the edges say of the sender. A preamble that lasts still is taken as it is.</summary>
    public LineQuality Quality
    {
        get
        {
            if (PreambleBits < 0)
            {
                EndPreamble(Bits);
            }

            return new LineQuality(
                _preambleRate, Math.Min(PreambleBits, Averaged), LineQuality.Rate(Bits - PreambleBits, Start - PreambleEnd),
                _worstJitter);
        }
    }

    /// <summary>Begins with a first bit and an estimate.</summary>
    public void Begin(long start, long unitInterval)
    {
        (FirstStart, Start, Bits, PreambleBits) = (start, start, 0, -1);
        (_unitInterval, _worstJitter, _inMiddle) = (unitInterval, 0, false);
        _starts[0] = start;
    }

    /// <summary>When one of the last 63 bits began.</summary>
    public long StartOf(int bit) => _starts[bit % Kept];

    /// <summary>Says how many bits the preamble has; the last of them is one of the last 31 bits.</summary>
    public void EndPreamble(int bits)
    {
        PreambleBits = bits;
        PreambleEnd = StartOf(bits);
        int averaged = Math.Min(bits, Averaged);
        _preambleRate = LineQuality.Rate(averaged, PreambleEnd - StartOf(bits - averaged));
    }

    /// <summary>Takes the next edge. A quarter of a unit interval is allowed either way.</summary>
    public ClockStep OnEdge(long edge)
    {
        long quarters = 4 * (edge - Start);
        if (!_inMiddle && quarters >= _unitInterval && quarters < 3 * _unitInterval)
        {
            _inMiddle = true;
            Measure(edge - Start - (_unitInterval / 2));
            return ClockStep.Middle;
        }

        if (quarters < 3 * _unitInterval || quarters > 5 * _unitInterval)
        {
            return ClockStep.Misplaced;
        }

        Measure(edge - Start - _unitInterval);
        ClockStep bit = _inMiddle ? ClockStep.One : ClockStep.Zero;
        _inMiddle = false;
        Bits++;
        if (Bits >= FirstAverage)
        {
            int averaged = Math.Min(Bits, Averaged);
            _unitInterval = (edge - StartOf(Bits - averaged)) / averaged;
        }

        _starts[Bits % Kept] = edge;
        Start = edge;
        return bit;
    }

    private void Measure(long deviation)
    {
        if (Bits >= FirstBitsWithoutJitter)
        {
            _worstJitter = Math.Max(_worstJitter, Math.Abs(deviation));
        }
    }
}
