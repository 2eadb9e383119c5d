using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Measuring;

/// <summary>VBUS on a port to which nothing is attached: before the first attach of a capture, and between a detach and the next. It judges nothing.</summary>
public sealed class VbusBeforeAttach
{
    // What was attached last may leave VBUS behind for so long (tVBUSOFF of USB Type-C, from memory).
    private long _emptySinceUs;
    private bool _isEmpty = true;
    private int? _leastMillivolts;
    private long _samples;
    private long _firstUs;
    private long _lastUs;

    /// <summary>VBUS over all of the time without anything attached, in mV, where it never was at vSafe0V; null when it was, or nothing was measured.</summary>
    public int? LeastMillivolts { get; private set; }

    /// <summary>The attach that ended it.</summary>
    public long AttachUs { get; private set; }

    /// <summary>From the first sample to the attach, in microseconds.</summary>
    public long LastedUs { get; private set; }

    /// <summary>How many samples show it.</summary>
    public long Samples { get; private set; }

    /// <summary>Takes the next measurement.</summary>
    public void Add(Sample sample)
    {
        if (!_isEmpty || sample.TimeUs < _emptySinceUs + VbusLimits.VbusOffUs)
        {
            return;
        }

        _firstUs = _samples == 0 ? sample.TimeUs : _firstUs;
        _lastUs = sample.TimeUs;
        _samples++;
        _leastMillivolts = Math.Min(_leastMillivolts ?? int.MaxValue, sample.Millivolts);
    }

    /// <summary>The port was attached.</summary>
    public void OnAttach(long timeUs, Instrument instrument)
    {
        if (_isEmpty && LeastMillivolts is null && _samples > 1 && _leastMillivolts is { } least
            && least - instrument.OfVoltage(least) > Electrical.Safe0VMaximum.Millivolts)
        {
            (LeastMillivolts, AttachUs, LastedUs, Samples) = (least, timeUs, _lastUs - _firstUs, _samples);
        }

        _isEmpty = false;
    }

    /// <summary>The port was detached.</summary>
    public void OnDetach(long timeUs) => (_isEmpty, _emptySinceUs, _samples, _leastMillivolts) = (true, timeUs, 0, null);
}
