using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Following.Exchanges;

/// <summary>Notices by measurements when VBUS is at vSafe5V after an attach or a Hard Reset: the source's first list is due then.</summary>
public sealed class VbusArrival
{
    private bool _isAwaited;
    private bool _mustFall;

    /// <summary>An attach, or a Hard Reset, which takes VBUS away first.</summary>
    /// <param name="isOn">VBUS has to fall before it comes back.</param>
    public void Begin(bool isOn) => (_isAwaited, _mustFall) = (true, isOn);

    /// <summary>Nothing is awaited any more.</summary>
    public void Reset() => _isAwaited = false;

    /// <summary>Takes a measurement, in mV; true when it is the first at vSafe5V.</summary>
    public bool OnMeasured(int millivolts)
    {
        if (!_isAwaited)
        {
            return false;
        }

        if (_mustFall)
        {
            _mustFall = millivolts > Electrical.Safe0VMaximum.Millivolts;
            return false;
        }

        bool isThere = millivolts >= Electrical.Safe5VMinimum.Millivolts && millivolts <= Electrical.Safe5VMaximum.Millivolts;
        _isAwaited = !isThere;
        return isThere;
    }
}
