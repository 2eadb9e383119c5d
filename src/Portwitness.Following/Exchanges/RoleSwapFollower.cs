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
    private Delivery? _accept;
    private Delivery? _oldSourceReady;
    private Delivery? _newSourceReady;
    private bool _isEpr;

    /// <summary>The swap was accepted.</summary>
    public void Begin(in Delivery accept, bool isEpr)
    {
        (_accept, _isEpr) = (accept, isEpr);
        (_oldSourceReady, _newSourceReady) = (null, null);
    }

    /// <summary>A message while it lasts.</summary>
    public void OnBegan(in Delivery delivery)
    {
        if (delivery.Kind == MessageKind.PSRDY && _accept is { } accept)
        {
            Take(_isEpr ? TimingLimits.TPSSourceOffEpr : TimingLimits.TPSSourceOffSpr, accept, delivery, Bounds.Max, Awaited.OldSourceReady);
            (_accept, _oldSourceReady) = (null, delivery);
        }
        else if (delivery.Kind == MessageKind.PSRDY && _oldSourceReady is { } old)
        {
            Take(TimingLimits.TPSSourceOnSpr, old, delivery, Bounds.Max, Awaited.NewSourceReady);
            (_oldSourceReady, _newSourceReady) = (null, delivery);
        }
        else if (delivery.Kind == MessageKind.SourceCapabilities && _newSourceReady is { } ready)
        {
            Take(TimingLimits.TSwapSourceStart, ready, delivery, Bounds.Min, Awaited.NewSourceList);
            Reset();
        }
    }

    /// <summary>A message was acknowledged or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        Update(ref _accept, delivery);
        Update(ref _oldSourceReady, delivery);
        Update(ref _newSourceReady, delivery);
    }

    /// <summary>It is over.</summary>
    public void Reset() => (_accept, _oldSourceReady, _newSourceReady) = (null, null, null);

    private static void Update(ref Delivery? kept, in Delivery delivery)
    {
        if (kept is { } old && old.Index == delivery.Index)
        {
            kept = delivery;
        }
    }

    private void Take(string limit, in Delivery from, in Delivery to, Bounds bounds, Awaited awaited)
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
