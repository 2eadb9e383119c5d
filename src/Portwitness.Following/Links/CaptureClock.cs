using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Following.Links;

/// <summary>
/// What the capture's times can prove. Frames take longer or shorter within the legal bit rates, stamps come in steps, and
/// where the header does not say which moment they name, both are considered.
/// </summary>
public sealed class CaptureClock
{
    // A kernel stamps when it gets to it. Common practice, no source.
    private const int SoftwareMarginUs = 50_000;

    // So many stamps before a common step is believed.
    private const int EnoughStamps = 4;
    private static readonly int[] Steps = [1_000_000, 100_000, 10_000, 1_000, 100, 10, 1];

    private bool _mayBeStart = true;
    private bool _mayBeEnd = true;
    private int _statedUs;
    private int _step;
    private int _stamps;
    private long _previousUs;
    private int _previousBits;

    /// <summary>Times come from software, not from an instrument.</summary>
    public bool IsSoftware { get; private set; }

    /// <summary>What stamps are uncertain by, in microseconds.</summary>
    public int UncertaintyUs => IsSoftware ? SoftwareMarginUs
        : _statedUs > 0 ? _statedUs
        : _stamps < EnoughStamps ? 1 : Steps[_step];

    /// <summary>Whether the steps of the stamps are known: stated, or seen in enough of them.</summary>
    public bool KnowsStep => _statedUs > 0 || _stamps == EnoughStamps;

    /// <summary>The times contradict themselves: nothing can be measured with them.</summary>
    public bool IsUseless => !_mayBeStart && !_mayBeEnd;

    /// <summary>The capture's header.</summary>
    public void OnHeader(CaptureHeader header)
    {
        IsSoftware = header.Origin == CaptureOrigin.KernelLog;
        _statedUs = header.ResolutionUs ?? 0;
        _mayBeStart = header.TimeOf != MessageMoment.End;
        _mayBeEnd = header.TimeOf != MessageMoment.Start;
    }

    /// <summary>A frame. Frames cannot overlap, so that a reading under which they would is not the right one.</summary>
    public void OnFrame(long stampUs, int bits)
    {
        _stamps = Math.Min(_stamps + 1, EnoughStamps);
        while (_step < Steps.Length - 1 && stampUs % Steps[_step] != 0)
        {
            _step++;
        }

        if (!IsSoftware && _stamps == EnoughStamps)
        {
            // The frame before takes its shortest time from its stamp on, or this one before its own.
            long mostUs = stampUs - _previousUs + UncertaintyUs;
            _mayBeStart &= mostUs >= BitRate.LeastUs(_previousBits);
            _mayBeEnd &= mostUs >= BitRate.LeastUs(bits);
        }

        (_previousUs, _previousBits) = (stampUs, bits);
    }

    /// <summary>How long it was from one moment to another.</summary>
    public Elapsed Between(Moment from, Moment to)
    {
        if (!_mayBeEnd || !_mayBeStart)
        {
            return Between(from, to, stampsStart: !_mayBeEnd);
        }

        Elapsed byStart = Between(from, to, true);
        Elapsed byEnd = Between(from, to, false);
        return new Elapsed(Math.Min(byStart.LeastUs, byEnd.LeastUs), Math.Max(byStart.MostUs, byEnd.MostUs));
    }

    private Elapsed Between(Moment from, Moment to, bool stampsStart)
    {
        (long fromLeast, long fromMost) = Shift(from, stampsStart);
        (long toLeast, long toMost) = Shift(to, stampsStart);
        long stamped = to.StampUs - from.StampUs;
        return new Elapsed(stamped + toLeast - fromMost - UncertaintyUs, stamped + toMost - fromLeast + UncertaintyUs);
    }

    private static (long Least, long Most) Shift(Moment moment, bool stampsStart) => (moment.AtEnd, stampsStart) switch
    {
        (true, true) => (BitRate.LeastUs(moment.Bits), BitRate.MostUs(moment.Bits)),
        (false, false) => (-BitRate.MostUs(moment.Bits), -BitRate.LeastUs(moment.Bits)),
        _ => (0, 0),
    };
}
