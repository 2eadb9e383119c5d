using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Sequence;

// What a rule about sequence can want to hear of. A rule implements what it needs; SequenceRules calls no other.

/// <summary>Hears of new messages.</summary>
internal interface IHearsBegan
{
    /// <summary>Whether messages of a kind matter to it; asked once for each kind, when a set is made.</summary>
    bool Concerns(MessageKind kind) => true;

    /// <summary>A new message.</summary>
    void OnBegan(in Delivery delivery, ConversationState conversation);
}

/// <summary>Hears of GoodCRCs that are another message's.</summary>
internal interface IHearsMisacknowledged
{
    /// <summary>A GoodCRC came in place of a message's own, with another MessageID.</summary>
    void OnMisacknowledged(in Delivery delivery, int messageId, long timeUs, ConversationState conversation);
}

/// <summary>Hears how messages ended.</summary>
internal interface IHearsClosed
{
    /// <summary>Nothing more will be heard of a message.</summary>
    void OnClosed(in Delivery delivery, Closing closing, long timeUs, ConversationState conversation);
}

/// <summary>Hears of answers.</summary>
internal interface IHearsAnswered
{
    /// <summary>A request was answered, or refused.</summary>
    void OnAnswered(Exchange exchange, in Delivery answer, ConversationState conversation);
}

/// <summary>Hears of answers that did not come.</summary>
internal interface IHearsUnanswered
{
    /// <summary>What a request was owed did not come.</summary>
    /// <param name="exchange">The request.</param>
    /// <param name="timeUs">When that was clear.</param>
    /// <param name="isProven">Whether what follows shows that it was not merely missed.</param>
    /// <param name="conversation">Where.</param>
    void OnUnanswered(Exchange exchange, long timeUs, bool isProven, ConversationState conversation);

    /// <summary>Whoever asked has gone on without the answer; only the other's next message shows whether it was missed.</summary>
    void OnSuperseded(Exchange exchange, in Delivery instead, ConversationState conversation);
}

/// <summary>Hears of completions that did not come.</summary>
internal interface IHearsNotCompleted
{
    /// <summary>What was accepted was not completed in time by either end; a later message shows it.</summary>
    void OnNotCompleted(Exchange exchange, in Delivery instead, ConversationState conversation);
}

/// <summary>Hears of faults of chunks.</summary>
internal interface IHearsChunks
{
    /// <summary>A chunk that was asked for, and acknowledged so, did not come; something else did.</summary>
    void OnChunkMissing(in Delivery request, in Delivery instead, ConversationState conversation);

    /// <summary>A fault of the chunks of an extended message.</summary>
    void OnChunkFault(in Delivery delivery, in ChunkFault fault, ConversationState conversation);
}

/// <summary>Hears of wrong CRCs.</summary>
internal interface IHearsGarbled
{
    /// <summary>Messages that were received wrongly and not sent again.</summary>
    void OnGarbled(Garbled garbled, ConversationState conversation);
}

/// <summary>Hears of Hard Resets.</summary>
internal interface IHearsHardReset
{
    /// <summary>A Hard Reset.</summary>
    void OnHardReset(long timeUs, ConversationState conversation);
}

/// <summary>Hears of the end.</summary>
internal interface IHearsEnd
{
    /// <summary>The capture has ended.</summary>
    void OnEnd(ConversationState conversation);
}
