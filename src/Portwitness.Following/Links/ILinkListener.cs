namespace Portwitness.Following.Links;

/// <summary>Why nothing more will be heard of a message.</summary>
public enum Closing
{
    /// <summary>Its sender said something else.</summary>
    NextMessage,

    /// <summary>Its sender reset the protocol.</summary>
    SoftReset,

    /// <summary>A Hard Reset.</summary>
    HardReset,

    /// <summary>A detach, a reset by the other side, or the end of what is known.</summary>
    Broken,
}

/// <summary>Is told of messages when they begin, are repeated, acknowledged and done.</summary>
public interface ILinkListener
{
    /// <summary>A message's first attempt.</summary>
    void OnBegan(in Delivery delivery);

    /// <summary>The same again.</summary>
    /// <param name="delivery">The message.</param>
    /// <param name="previousUs">Time of the attempt before.</param>
    void OnRetry(in Delivery delivery, long previousUs);

    /// <summary>Its GoodCRC.</summary>
    void OnAcknowledged(in Delivery delivery);

    /// <summary>A GoodCRC that came in its place, with another MessageID.</summary>
    /// <param name="delivery">The message.</param>
    /// <param name="messageId">The MessageID of the GoodCRC.</param>
    /// <param name="timeUs">Time of the GoodCRC.</param>
    void OnMisacknowledged(in Delivery delivery, int messageId, long timeUs);

    /// <summary>Nothing more will be heard of it.</summary>
    /// <param name="delivery">The message.</param>
    /// <param name="closing">Why.</param>
    /// <param name="timeUs">When.</param>
    void OnClosed(in Delivery delivery, Closing closing, long timeUs);

    /// <summary>Messages that were received wrongly, and nothing like them came: what they said is not known.</summary>
    void OnGarbled(Garbled garbled);

    /// <summary>A sender's counter begins anew, or went on unseen: its next message does not show any more what was said before.</summary>
    void OnForgotten(Link link);

    /// <summary>The capture misses messages.</summary>
    void OnLost(in Loss loss);
}
