namespace Portwitness.Following.Links;

/// <summary>
/// Keeps what links tell of one record until everything that the record changes was taken in; rules hear of it then. Nothing is
/// allocated once it has grown to what one record may tell.
/// </summary>
public sealed class LinkEvents : ILinkListener
{
    // As many as a record tells at once, nearly always.
    private LinkEvent[] _events = new LinkEvent[8];
    private int _count;

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
    public void OnBegan(in Delivery delivery) => Next(LinkEventKind.Began).Delivery = delivery;

    /// <inheritdoc/>
    public void OnRetry(in Delivery delivery, long previousUs)
    {
        ref LinkEvent next = ref Next(LinkEventKind.Retry);
        next.Delivery = delivery;
        next.TimeUs = previousUs;
    }

    /// <inheritdoc/>
    public void OnAcknowledged(in Delivery delivery) => Next(LinkEventKind.Acknowledged).Delivery = delivery;

    /// <inheritdoc/>
    public void OnMisacknowledged(in Delivery delivery, int messageId, long timeUs)
    {
        ref LinkEvent next = ref Next(LinkEventKind.Misacknowledged);
        next.Delivery = delivery;
        next.MessageId = messageId;
        next.TimeUs = timeUs;
    }

    /// <inheritdoc/>
    public void OnClosed(in Delivery delivery, Closing closing, long timeUs)
    {
        ref LinkEvent next = ref Next(LinkEventKind.Closed);
        next.Delivery = delivery;
        next.Closing = closing;
        next.TimeUs = timeUs;
    }

    /// <inheritdoc/>
    public void OnGarbled(Garbled garbled) => Next(LinkEventKind.Garbled).Garbled = garbled;

    /// <inheritdoc/>
    public void OnForgotten(Link link) => Next(LinkEventKind.Forgotten).Link = link;

    /// <inheritdoc/>
    public void OnLost(in Loss loss) => Next(LinkEventKind.Lost).Loss = loss;

    /// <summary>Tells all, in order, and forgets it.</summary>
    public void TellTo(ILinkListener listener)
    {
        for (int i = 0; i < _count; i++)
        {
            Tell(ref _events[i], listener);
        }

        _count = 0;
    }

    // What an event of its kind does not have is left as it was: deliveries are large, and told of for every message.
    private ref LinkEvent Next(LinkEventKind kind)
    {
        if (_count == _events.Length)
        {
            Array.Resize(ref _events, 2 * _count);
        }

        ref LinkEvent next = ref _events[_count++];
        next.Kind = kind;
        return ref next;
    }

    private static void Tell(ref readonly LinkEvent told, ILinkListener listener)
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
