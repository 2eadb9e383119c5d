using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following.Exchanges;

/// <summary>Is told what happens in a conversation, in order. What it makes of that is its own matter.</summary>
public interface IConversationListener
{
    /// <summary>A new message, other than GoodCRC and the messages of a power role swap.</summary>
    void OnBegan(in Delivery delivery);

    /// <summary>A link went on without a gap: nothing of its sender is missing since the message before.</summary>
    void OnWentOn(SopKind sop, bool fromSourceOrPlug);

    /// <summary>A sender's counter begins anew, or went on unseen: its next message does not show any more what was said before.</summary>
    void OnForgotten(SopKind sop, bool fromSourceOrPlug);

    /// <summary>The capture misses messages.</summary>
    void OnLost(in Loss loss);

    /// <summary>A GoodCRC came in place of a message's own, with another MessageID.</summary>
    void OnMisacknowledged(in Delivery delivery, int messageId, long timeUs);

    /// <summary>Nothing more will be heard of a message.</summary>
    void OnClosed(in Delivery delivery, Closing closing, long timeUs);

    /// <summary>Messages that were received wrongly and not sent again.</summary>
    void OnGarbled(Garbled garbled);

    /// <summary>A request was answered, or refused.</summary>
    void OnAnswered(Exchange exchange, in Delivery answer);

    /// <summary>What a request was owed did not come.</summary>
    /// <param name="exchange">The request.</param>
    /// <param name="timeUs">When that was clear.</param>
    /// <param name="isProven">Whether what follows shows that it was not merely missed.</param>
    void OnUnanswered(Exchange exchange, long timeUs, bool isProven);

    /// <summary>Whoever asked has gone on without the answer; only the other's next message shows whether it was missed.</summary>
    void OnSuperseded(Exchange exchange, in Delivery instead);

    /// <summary>What was accepted was not completed in time by either end; a later message shows it.</summary>
    void OnNotCompleted(Exchange exchange, in Delivery instead);

    /// <summary>A chunk that was asked for, and acknowledged so, did not come; something else did.</summary>
    void OnChunkMissing(in Delivery request, in Delivery instead);

    /// <summary>A fault of the chunks of an extended message.</summary>
    void OnChunkFault(in Delivery delivery, in ChunkFault fault);

    /// <summary>A Hard Reset.</summary>
    void OnHardReset(long timeUs);

    /// <summary>A time that a parameter of the standard limits has passed.</summary>
    void OnElapsed(in Interval interval);

    /// <summary>The capture has ended.</summary>
    void OnEnd();
}
