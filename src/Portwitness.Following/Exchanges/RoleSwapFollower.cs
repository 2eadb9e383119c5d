using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Following.Exchanges;

/// <summary>
/// The times of a power role swap. While it lasts, headers do not tell who speaks (R3.2v1.1, 6.2.1.1.4), so that what is
/// too long is told without a name.
/// </summary>
public sealed class RoleSwapFollower(IConversationListener listener)
{
    private KeptDelivery _accept;
    private KeptDelivery _oldSourceReady;
    private KeptDelivery _newSourceReady;
    private bool _isEpr;

    /// <summary>The swap was accepted.</summary>
    public void Begin(in Delivery accept, bool isEpr)
    {
        Reset();
        _accept.Keep(accept);
        _isEpr = isEpr;
    }

    /// <summary>A message while it lasts.</summary>
    public void OnBegan(in Delivery delivery)
    {
        if (delivery.Kind == MessageKind.PSRDY && _accept.IsKept)
        {
            Tell(_isEpr ? TimingLimits.TPSSourceOffEpr : TimingLimits.TPSSourceOffSpr, _accept.Value, delivery, Bounds.Max, Awaited.OldSourceReady);
            _accept.Forget();
            _oldSourceReady.Keep(delivery);
        }
        else if (delivery.Kind == MessageKind.PSRDY && _oldSourceReady.IsKept)
        {
            Tell(TimingLimits.TPSSourceOnSpr, _oldSourceReady.Value, delivery, Bounds.Max, Awaited.NewSourceReady);
            _oldSourceReady.Forget();
            _newSourceReady.Keep(delivery);
        }
        else if (delivery.Kind == MessageKind.SourceCapabilities && _newSourceReady.IsKept)
        {
            Tell(TimingLimits.TSwapSourceStart, _newSourceReady.Value, delivery, Bounds.Min, Awaited.NewSourceList);
            Reset();
        }
    }

    /// <summary>A message was acknowledged or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        _accept.Update(delivery);
        _oldSourceReady.Update(delivery);
        _newSourceReady.Update(delivery);
    }

    /// <summary>It is over.</summary>
    public void Reset()
    {
        _accept.Forget();
        _oldSourceReady.Forget();
        _newSourceReady.Forget();
    }

    private void Tell(string limit, in Delivery from, in Delivery to, Bounds bounds, Awaited awaited)
    {
        if (from.IsAcknowledged)
        {
            listener.OnElapsed(new Interval(limit, Moment.EndOfGoodCrc(from.AcknowledgedUs), to.Start)
            {
                Party = Party.Unsure, Awaited = awaited, Index = to.Index, Bounds = bounds,
                LateAllowanceUs = ExchangeFollower.LostAttempts(to),
            });
        }
    }
}
