using System.Diagnostics.CodeAnalysis;

namespace Portwitness.Following.Links;

/// <summary>Room for one message that something waits on. A delivery is long: it is looked at in its place, and copied only when it is kept.</summary>
public struct KeptDelivery
{
    private Delivery _kept;

    /// <summary>Whether a message is kept. Indices count from 1.</summary>
    public readonly bool IsKept => _kept.Index > 0;

    /// <summary>The message, while one is kept.</summary>
    [UnscopedRef]
    public readonly ref readonly Delivery Value => ref _kept;

    /// <summary>Keeps a message in place of what there was.</summary>
    public void Keep(in Delivery delivery) => _kept = delivery;

    /// <summary>Keeps nothing any more.</summary>
    public void Forget() => _kept.Index = 0;

    /// <summary>The message was acknowledged or sent again, if it is this one.</summary>
    public void Update(in Delivery delivery)
    {
        if (_kept.Index == delivery.Index)
        {
            _kept = delivery;
        }
    }
}
