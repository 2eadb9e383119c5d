using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Sequence;
using Portwitness.Captures;
using Portwitness.Following;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Exchanges;

/// <summary>Has the rules about sequence and timing look at what happens in a conversation.</summary>
internal sealed class ConversationJudge : ICaptureFollower, IConversationListener
{
    private readonly CaptureContext _context;
    private readonly SuspicionLog _log;
    private readonly TimingChecks _timing;
    private readonly ConversationState _conversation;
    private readonly ConversationFollower _follower;

    public ConversationJudge(CaptureContext context)
    {
        _context = context;
        _log = new SuspicionLog(context) { KnowsNext = (sop, end) => context.Track.Links.Of(sop, end).KnowsNext };
        _conversation = new ConversationState(context, _log);
        _timing = new TimingChecks(context.Track.Clock, _log);
        _follower = new ConversationFollower(_conversation, this);
    }

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message) => _follower.OnMessage(message);

    /// <inheritdoc/>
    public void OnBrokenFrame(BrokenFrameRecord frame) => _follower.OnBrokenFrame(frame);

    /// <inheritdoc/>
    public void BeforeSignal(SignalRecord signal) => _follower.BeforeSignal(signal);

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal) => _follower.OnSignal(signal);

    /// <inheritdoc/>
    public void OnMeasurement(MeasurementRecord measurement) => _follower.OnMeasurement(measurement);

    /// <inheritdoc/>
    public void OnEvent(EventRecord happened)
    {
        if (happened.Port is not { } port || port == _context.Port)
        {
            _follower.OnEvent(happened);
        }
        else
        {
            _follower.OnElsewhere(happened.TimeUs);
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        _follower.Complete();
        _log.Complete(_conversation.IsOfSoftware);
    }

    void IConversationListener.OnWentOn(SopKind sop, bool fromSourceOrPlug) => _log.Confirm(sop, fromSourceOrPlug);

    void IConversationListener.OnForgotten(SopKind sop, bool fromSourceOrPlug) => _log.Forget(sop, fromSourceOrPlug);

    void IConversationListener.OnLost(in Loss loss) => _log.Lose(loss.TimeUs);

    void IConversationListener.OnElapsed(in Interval interval) => _timing.Take(interval);

    void IConversationListener.OnBegan(in Delivery delivery)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnBegan(delivery, _conversation);
        }
    }

    void IConversationListener.OnMisacknowledged(in Delivery delivery, int messageId, long timeUs)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnMisacknowledged(delivery, messageId, timeUs, _conversation);
        }
    }

    void IConversationListener.OnClosed(in Delivery delivery, Closing closing, long timeUs)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnClosed(delivery, closing, timeUs, _conversation);
        }
    }

    void IConversationListener.OnGarbled(Garbled garbled)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnGarbled(garbled, _conversation);
        }
    }

    void IConversationListener.OnAnswered(Exchange exchange, in Delivery answer)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnAnswered(exchange, answer, _conversation);
        }
    }

    void IConversationListener.OnUnanswered(Exchange exchange, long timeUs, bool isProven)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnUnanswered(exchange, timeUs, isProven, _conversation);
        }
    }

    void IConversationListener.OnSuperseded(Exchange exchange, in Delivery next)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnSuperseded(exchange, next, _conversation);
        }
    }

    void IConversationListener.OnNotCompleted(Exchange exchange, in Delivery next)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnNotCompleted(exchange, next, _conversation);
        }
    }

    void IConversationListener.OnChunkMissing(in Delivery request, in Delivery instead)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnChunkMissing(request, instead, _conversation);
        }
    }

    void IConversationListener.OnChunkFault(in Delivery delivery, in ChunkFault fault)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnChunkFault(delivery, fault, _conversation);
        }
    }

    void IConversationListener.OnHardReset(long timeUs)
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnHardReset(timeUs, _conversation);
        }
    }

    void IConversationListener.OnEnd()
    {
        foreach (SequenceRule rule in RuleCatalogue.Sequence)
        {
            rule.OnEnd(_conversation);
        }
    }
}
