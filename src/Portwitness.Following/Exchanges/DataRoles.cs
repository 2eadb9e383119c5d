using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Following.Exchanges;

/// <summary>
/// Which end of SOP is DFP and which is UFP, as bit 5 of their headers says (R3.2v1.1, 6.2.1.1.6). A DR_Swap that is accepted,
/// a power role swap and a message that the capture misses leave it open until each end speaks again.
/// </summary>
public sealed class DataRoles
{
    private readonly bool?[] _isDfp = new bool?[2];
    private bool _isSwapAsked;

    /// <summary>Whether no role can have changed since the attach or Hard Reset.</summary>
    public bool AreInitial { get; private set; }

    /// <summary>Whether an end is DFP; null when that is not known, and while a DR_Swap is not answered.</summary>
    public bool? IsDfp(bool fromSource) => _isSwapAsked ? null : _isDfp[fromSource ? 1 : 0];

    /// <summary>A message on SOP other than GoodCRC.</summary>
    public void OnMessage(in Delivery delivery)
    {
        if (delivery.Kind == MessageKind.DRSwap)
        {
            (_isSwapAsked, AreInitial) = (true, false);
        }

        _isDfp[delivery.FromSourceOrPlug ? 1 : 0] = delivery.Header.DownstreamFacing;
        if (_isSwapAsked && delivery.Kind == MessageKind.Accept)
        {
            Forget();
        }
        else if (delivery.Kind == MessageKind.Reject || delivery.Kind == MessageKind.Wait
            || delivery.Kind == MessageKind.NotSupported || delivery.Kind == MessageKind.SoftReset)
        {
            _isSwapAsked = false;
        }
    }

    /// <summary>Roles may have changed.</summary>
    public void Forget()
    {
        (_isDfp[0], _isDfp[1]) = (null, null);
        (_isSwapAsked, AreInitial) = (false, false);
    }

    /// <summary>An attach or a Hard Reset: each port has the role that it begins with.</summary>
    public void Restart()
    {
        Forget();
        AreInitial = true;
    }
}
