namespace Portwitness.Analysis.Measuring;

/// <summary>Notices where VBUS leaves a contract downwards. It is told what the least allowed VBUS is with each sample.</summary>
internal sealed class InterruptionTracker
{
    private const int Most = 1000;

    // A reset so long before VBUS falls is another story: tPSHardReset and tSafe0V are 685 ms together.
    private const long ResetWindowUs = 1_000_000;

    private readonly List<Interruption> _found = [];
    private Interruption? _open;
    private long? _lastGoodUs;
    private long? _hardResetUs;
    private VbusTerms? _contract;
    private int? _lostFloor;

    /// <summary>Those that were found, in order.</summary>
    public IReadOnlyList<Interruption> Interruptions => _found;

    /// <summary>Those beyond a thousand.</summary>
    public long Unlisted { get; private set; }

    /// <summary>Takes a sample.</summary>
    /// <param name="sample">The sample.</param>
    /// <param name="uncertainty">VBUS may have been so much more, in mV.</param>
    /// <param name="floor">The least that it may be, in mV; null when no contract is in force.</param>
    /// <param name="contract">The contract; null before the first.</param>
    /// <param name="overloaded">The load takes, or took, too much.</param>
    /// <param name="safe5V">The least of vSafe5V: VBUS is back there after a reset.</param>
    public void Add(Sample sample, int uncertainty, int? floor, VbusTerms? contract, bool overloaded, int safe5V)
    {
        if (floor is not null)
        {
            (_lostFloor, _contract) = (floor, contract);
        }

        int? least = _open is null ? floor ?? _lostFloor : floor ?? safe5V;
        if (least is not { } limit)
        {
            return;
        }

        if (sample.Millivolts + uncertainty < limit)
        {
            _open = _open is { } open
                ? open with
                {
                    LastBelowUs = sample.TimeUs,
                    DeepestMillivolts = Math.Min(open.DeepestMillivolts, sample.Millivolts),
                    Overloaded = open.Overloaded || overloaded,
                }
                : Begin(sample, overloaded);
            return;
        }

        _lastGoodUs = sample.TimeUs;
        if (_open is not null)
        {
            Close(sample.TimeUs);
            _lostFloor = floor;
        }
    }

    /// <summary>A Hard Reset ends the contract, and VBUS has to go.</summary>
    public void OnHardReset(long timeUs)
    {
        _hardResetUs = timeUs;
        _open = _open is null ? null : _open with { HardResetUs = _open.HardResetUs ?? timeUs };
    }

    /// <summary>The port was detached, or what it gives is not known any more: nothing is interrupted.</summary>
    public void Forget() => (_open, _lastGoodUs, _hardResetUs, _lostFloor) = (null, null, null, null);

    /// <summary>The capture has ended.</summary>
    public void Complete()
    {
        if (_open is not null)
        {
            Close(null);
        }
    }

    private Interruption Begin(Sample sample, bool overloaded) => new()
    {
        Contract = _contract,
        LastGoodUs = _lastGoodUs,
        StartUs = sample.TimeUs,
        LastBelowUs = sample.TimeUs,
        EndUs = null,
        DeepestMillivolts = sample.Millivolts,
        HardResetUs = _hardResetUs is { } reset && sample.TimeUs - reset <= ResetWindowUs ? reset : null,
        Overloaded = overloaded,
    };

    private void Close(long? endUs)
    {
        Interruption ended = _open! with { EndUs = endUs };
        _open = null;
        if (_found.Count < Most)
        {
            _found.Add(ended);
        }
        else
        {
            Unlisted++;
        }
    }
}
