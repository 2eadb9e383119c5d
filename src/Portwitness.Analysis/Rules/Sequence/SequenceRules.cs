using System.Collections.Immutable;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>The selected rules about sequence, by what they want to hear of: a rule is called for nothing else.</summary>
internal sealed class SequenceRules
{
    private const int CodesOfAClass = 32;
    private const int Classes = 3;

    private readonly ImmutableArray<IHearsBegan>[] _began;
    private readonly ImmutableArray<IHearsMisacknowledged> _misacknowledged;
    private readonly ImmutableArray<IHearsClosed> _closed;
    private readonly ImmutableArray<IHearsAnswered> _answered;
    private readonly ImmutableArray<IHearsUnanswered> _unanswered;
    private readonly ImmutableArray<IHearsNotCompleted> _notCompleted;
    private readonly ImmutableArray<IHearsChunks> _chunks;
    private readonly ImmutableArray<IHearsGarbled> _garbled;
    private readonly ImmutableArray<IHearsHardReset> _hardReset;
    private readonly ImmutableArray<IHearsEnd> _end;

    public SequenceRules(ImmutableArray<SequenceRule> rules)
    {
        ImmutableArray<IHearsBegan> began = [.. rules.OfType<IHearsBegan>()];
        _began = [.. Enumerable.Range(0, Classes * CodesOfAClass).Select(KindAt).Select(ImmutableArray<IHearsBegan> (kind) => [.. began.Where(rule => rule.Concerns(kind))])];
        _misacknowledged = [.. rules.OfType<IHearsMisacknowledged>()];
        _closed = [.. rules.OfType<IHearsClosed>()];
        _answered = [.. rules.OfType<IHearsAnswered>()];
        _unanswered = [.. rules.OfType<IHearsUnanswered>()];
        _notCompleted = [.. rules.OfType<IHearsNotCompleted>()];
        _chunks = [.. rules.OfType<IHearsChunks>()];
        _garbled = [.. rules.OfType<IHearsGarbled>()];
        _hardReset = [.. rules.OfType<IHearsHardReset>()];
        _end = [.. rules.OfType<IHearsEnd>()];
    }

    /// <inheritdoc cref="IHearsBegan.OnBegan"/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        foreach (IHearsBegan rule in _began[IndexOf(delivery.Kind)])
        {
            rule.OnBegan(delivery, conversation);
        }
    }

    /// <inheritdoc cref="IHearsMisacknowledged.OnMisacknowledged"/>
    public void OnMisacknowledged(in Delivery delivery, int messageId, long timeUs, ConversationState conversation)
    {
        foreach (IHearsMisacknowledged rule in _misacknowledged)
        {
            rule.OnMisacknowledged(delivery, messageId, timeUs, conversation);
        }
    }

    /// <inheritdoc cref="IHearsClosed.OnClosed"/>
    public void OnClosed(in Delivery delivery, Closing closing, long timeUs, ConversationState conversation)
    {
        foreach (IHearsClosed rule in _closed)
        {
            rule.OnClosed(delivery, closing, timeUs, conversation);
        }
    }

    /// <inheritdoc cref="IHearsAnswered.OnAnswered"/>
    public void OnAnswered(Exchange exchange, in Delivery answer, ConversationState conversation)
    {
        foreach (IHearsAnswered rule in _answered)
        {
            rule.OnAnswered(exchange, answer, conversation);
        }
    }

    /// <inheritdoc cref="IHearsUnanswered.OnUnanswered"/>
    public void OnUnanswered(Exchange exchange, long timeUs, bool isProven, ConversationState conversation)
    {
        foreach (IHearsUnanswered rule in _unanswered)
        {
            rule.OnUnanswered(exchange, timeUs, isProven, conversation);
        }
    }

    /// <inheritdoc cref="IHearsUnanswered.OnSuperseded"/>
    public void OnSuperseded(Exchange exchange, in Delivery instead, ConversationState conversation)
    {
        foreach (IHearsUnanswered rule in _unanswered)
        {
            rule.OnSuperseded(exchange, instead, conversation);
        }
    }

    /// <inheritdoc cref="IHearsNotCompleted.OnNotCompleted"/>
    public void OnNotCompleted(Exchange exchange, in Delivery instead, ConversationState conversation)
    {
        foreach (IHearsNotCompleted rule in _notCompleted)
        {
            rule.OnNotCompleted(exchange, instead, conversation);
        }
    }

    /// <inheritdoc cref="IHearsChunks.OnChunkMissing"/>
    public void OnChunkMissing(in Delivery request, in Delivery instead, ConversationState conversation)
    {
        foreach (IHearsChunks rule in _chunks)
        {
            rule.OnChunkMissing(request, instead, conversation);
        }
    }

    /// <inheritdoc cref="IHearsChunks.OnChunkFault"/>
    public void OnChunkFault(in Delivery delivery, in ChunkFault fault, ConversationState conversation)
    {
        foreach (IHearsChunks rule in _chunks)
        {
            rule.OnChunkFault(delivery, fault, conversation);
        }
    }

    /// <inheritdoc cref="IHearsGarbled.OnGarbled"/>
    public void OnGarbled(Garbled garbled, ConversationState conversation)
    {
        foreach (IHearsGarbled rule in _garbled)
        {
            rule.OnGarbled(garbled, conversation);
        }
    }

    /// <inheritdoc cref="IHearsHardReset.OnHardReset"/>
    public void OnHardReset(long timeUs, ConversationState conversation)
    {
        foreach (IHearsHardReset rule in _hardReset)
        {
            rule.OnHardReset(timeUs, conversation);
        }
    }

    /// <inheritdoc cref="IHearsEnd.OnEnd"/>
    public void OnEnd(ConversationState conversation)
    {
        foreach (IHearsEnd rule in _end)
        {
            rule.OnEnd(conversation);
        }
    }

    // A type code has five bits.
    private static int IndexOf(MessageKind kind) => ((int)kind.Class * CodesOfAClass) + kind.Code;

    private static MessageKind KindAt(int index) => new((MessageClass)(index / CodesOfAClass), index % CodesOfAClass);
}
