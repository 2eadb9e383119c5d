using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>
/// A rule about which messages follow which. It suspects while the capture is read; what it suspects is settled when the
/// capture has ended (<see cref="SuspicionLog"/>). It declares what it hears of: <see cref="IHearsBegan"/> and the like.
/// </summary>
internal abstract class SequenceRule : Rule
{
    /// <summary>A new message.</summary>
    public virtual void OnBegan(in Delivery delivery, ConversationState conversation)
    {
    }

    /// <summary>A GoodCRC came in place of a message's own, with another MessageID.</summary>
    public virtual void OnMisacknowledged(in Delivery delivery, int messageId, long timeUs, ConversationState conversation)
    {
    }

    /// <summary>Nothing more will be heard of a message.</summary>
    public virtual void OnClosed(in Delivery delivery, Closing closing, long timeUs, ConversationState conversation)
    {
    }

    /// <summary>A request was answered, or refused.</summary>
    public virtual void OnAnswered(Exchange exchange, in Delivery answer, ConversationState conversation)
    {
    }

    /// <summary>What a request was owed did not come.</summary>
    /// <param name="exchange">The request.</param>
    /// <param name="timeUs">When that was clear.</param>
    /// <param name="isProven">Whether what follows shows that it was not merely missed.</param>
    /// <param name="conversation">Where.</param>
    public virtual void OnUnanswered(Exchange exchange, long timeUs, bool isProven, ConversationState conversation)
    {
    }

    /// <summary>Whoever asked has gone on without the answer; only the other's next message shows whether it was missed.</summary>
    public virtual void OnSuperseded(Exchange exchange, in Delivery next, ConversationState conversation)
    {
    }

    /// <summary>What was accepted was not completed in time by either end; a later message shows it.</summary>
    public virtual void OnNotCompleted(Exchange exchange, in Delivery next, ConversationState conversation)
    {
    }

    /// <summary>A chunk that was asked for, and acknowledged so, did not come; something else did.</summary>
    public virtual void OnChunkMissing(in Delivery request, in Delivery instead, ConversationState conversation)
    {
    }

    /// <summary>Messages that were received wrongly and not sent again.</summary>
    public virtual void OnGarbled(Garbled garbled, ConversationState conversation)
    {
    }

    /// <summary>A Hard Reset.</summary>
    public virtual void OnHardReset(long timeUs, ConversationState conversation)
    {
    }

    /// <summary>A fault of the chunks of an extended message.</summary>
    public virtual void OnChunkFault(in Delivery delivery, in ChunkFault fault, ConversationState conversation)
    {
    }

    /// <summary>The capture has ended.</summary>
    public virtual void OnEnd(ConversationState conversation)
    {
    }
}
