namespace Portwitness.Following.Links;

/// <summary>
/// Keeps what links tell of one record until everything that the record changes was taken in; rules hear of it then. Nothing is
/// allocated once it has grown to what one record may tell.
/// </summary>
public sealed class LinkEvents : ILinkListener
{
    private readonly List<LinkEvent> _events = [];

    private enum LinkEventKind
    {
        Began,
        Retry,
        Acknowledged,
        Misacknowledged,
        Closed,
        Garbled,
        Forgotten,
        Lost,
    }

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery) => _events.Add(new LinkEvent { Kind = LinkEventKind.Began, Delivery = delivery });

    /// <inheritdoc/>
    public void OnRetry(in Delivery delivery, long previousUs) =>
        _events.Add(new LinkEvent { Kind = LinkEventKind.Retry, Delivery = delivery, TimeUs = previousUs });

    /// <inheritdoc/>
    public void OnAcknowledged(in Delivery delivery) =>
        _events.Add(new LinkEvent { Kind = LinkEventKind.Acknowledged, Delivery = delivery });

    /// <inheritdoc/>
    public void OnMisacknowledged(in Delivery delivery, int messageId, long timeUs) => _events.Add(
        new LinkEvent { Kind = LinkEventKind.Misacknowledged, Delivery = delivery, MessageId = messageId, TimeUs = timeUs });

    /// <inheritdoc/>
    public void OnClosed(in Delivery delivery, Closing closing, long timeUs) =>
        _events.Add(new LinkEvent { Kind = LinkEventKind.Closed, Delivery = delivery, Closing = closing, TimeUs = timeUs });

    /// <inheritdoc/>
    public void OnGarbled(Garbled garbled) => _events.Add(new LinkEvent { Kind = LinkEventKind.Garbled, Garbled = garbled });

    /// <inheritdoc/>
    public void OnForgotten(Link link) => _events.Add(new LinkEvent { Kind = LinkEventKind.Forgotten, Link = link });

    /// <inheritdoc/>
    public void OnLost(in Loss loss) => _events.Add(new LinkEvent { Kind = LinkEventKind.Lost, Loss = loss });

    /// <summary>Tells all, in order, and forgets it.</summary>
    public void TellTo(ILinkListener listener)
    {
        for (int i = 0; i < _events.Count; i++)
        {
            Tell(_events[i], listener);
        }

        _events.Clear();
    }

    private static void Tell(in LinkEvent told, ILinkListener listener)
    {
        switch (told.Kind)
        {
            case LinkEventKind.Began:
                listener.OnBegan(told.Delivery);
                break;
            case LinkEventKind.Retry:
                listener.OnRetry(told.Delivery, told.TimeUs);
                break;
            case LinkEventKind.Acknowledged:
                listener.OnAcknowledged(told.Delivery);
                break;
            case LinkEventKind.Misacknowledged:
                listener.OnMisacknowledged(told.Delivery, told.MessageId, told.TimeUs);
                break;
            case LinkEventKind.Closed:
                listener.OnClosed(told.Delivery, told.Closing, told.TimeUs);
                break;
            case LinkEventKind.Garbled:
                listener.OnGarbled(told.Garbled);
                break;
            case LinkEventKind.Forgotten:
                listener.OnForgotten(told.Link!);
                break;
            default:
                listener.OnLost(told.Loss);
                break;
        }
    }

    private struct LinkEvent
    {
        public LinkEventKind Kind;
        public Delivery Delivery;
        public Closing Closing;
        public long TimeUs;
        public int MessageId;
        public Garbled Garbled;
        public Link? Link;
        public Loss Loss;
    }
}
