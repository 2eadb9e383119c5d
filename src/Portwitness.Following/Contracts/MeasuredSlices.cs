namespace Portwitness.Following.Contracts;

/// <summary>
/// What was measured under a contract, slice by slice, so that it can be told apart for the times before and after a neighbour came.
/// The number of slices is bounded: when there are too many, neighbouring ones become one.
/// </summary>
public sealed class MeasuredSlices
{
    private const int MaxSlices = 128;
    private const long FirstSliceUs = 100_000;

    private readonly List<Slice> _slices = [];
    private long _sliceUs = FirstSliceUs;
    private bool _isCut = true;

    /// <summary>Everything; null when nothing was measured.</summary>
    public MeasuredPower? Whole => Sum(_slices);

    /// <summary>What was measured from one time until before another; slices that reach beyond are left out. Null when that is nothing.</summary>
    /// <param name="periods">Microseconds from the start of the capture.</param>
    public MeasuredPower? Within(IReadOnlyList<(long FromUs, long UntilUs)> periods) =>
        Sum(_slices.Where(slice => periods.Any(period => slice.FromUs >= period.FromUs && slice.LastUs < period.UntilUs)));

    /// <summary>Takes the next measurement.</summary>
    /// <param name="timeUs">Microseconds from the start of the capture.</param>
    /// <param name="millivolts">VBUS.</param>
    /// <param name="milliamperes">IBUS; null when it was not measured.</param>
    public void Add(long timeUs, int millivolts, int? milliamperes)
    {
        if (_isCut || timeUs - _slices[^1].FromUs >= _sliceUs)
        {
            if (_slices.Count == MaxSlices)
            {
                Halve();
            }

            _slices.Add(new Slice(timeUs, _isCut));
            _isCut = false;
        }

        _slices[^1].Add(timeUs, millivolts, milliamperes);
    }

    /// <summary>Something changed beside the port: what follows is told apart from what came before.</summary>
    public void Cut() => _isCut = true;

    // Slices on both sides of a cut become one only where cuts alone are too many.
    private void Halve()
    {
        _sliceUs *= 2;
        Merge(keepCuts: true);
        if (_slices.Count > MaxSlices / 2)
        {
            Merge(keepCuts: false);
        }
    }

    private void Merge(bool keepCuts)
    {
        int kept = 0;
        for (int at = 0; at < _slices.Count; at++)
        {
            bool joins = at + 1 < _slices.Count && !(keepCuts && _slices[at + 1].BeginsCut);
            _slices[kept++] = joins ? _slices[at].And(_slices[++at]) : _slices[at];
        }

        _slices.RemoveRange(kept, _slices.Count - kept);
    }

    private static MeasuredPower? Sum(IEnumerable<Slice> slices) =>
        slices.Aggregate((Slice?)null, static (sum, slice) => sum is null ? slice : sum.And(slice))?.Measured.ToPower();

    private sealed class Slice(long fromUs, bool beginsCut)
    {
        public long FromUs { get; } = fromUs;

        public bool BeginsCut { get; } = beginsCut;

        public long LastUs { get; private set; } = fromUs;

        public MeasuredPower.Sum Measured { get; private init; } = new();

        public void Add(long timeUs, int millivolts, int? milliamperes)
        {
            Measured.Add(millivolts, milliamperes);
            LastUs = timeUs;
        }

        public Slice And(Slice next) => new(FromUs, BeginsCut) { Measured = Measured.And(next.Measured), LastUs = next.LastUs };
    }
}
