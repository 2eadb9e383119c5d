using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Rules.Sequence;
using Portwitness.Captures;
using Portwitness.Following;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Conversation;

/// <summary>Has the rules about sequence and timing look at what happens in a conversation.</summary>
internal sealed class ConversationJudge : ICaptureFollower, IConversationListener
{
    private readonly CaptureContext _context;
    private readonly SequenceRules _rules;
    private readonly SuspicionLog _log;
    private readonly TimingChecks _timing;
    private readonly ConversationState _conversation;
    private readonly ConversationFollower _follower;

    public ConversationJudge(CaptureContext context)
    {
        (_context, _rules) = (context, context.Rules.Sequence);
        _log = new SuspicionLog(context) { KnowsNext = (sop, end) => context.Track.Links.Find(sop, end).KnowsNext };
        _conversation = new ConversationState(context.Track, context.Contracts, _log);
        _timing = new TimingChecks(context.Rules.Timing, context.Track.Clock, _log);
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
        _log.Complete(_conversation.Index, _conversation.IsOfSoftware);
    }

    void IConversationListener.OnWentOn(SopKind sop, bool fromSourceOrPlug) => _log.Confirm(sop, fromSourceOrPlug);

    void IConversationListener.OnForgotten(SopKind sop, bool fromSourceOrPlug) => _log.Forget(sop, fromSourceOrPlug);

    void IConversationListener.OnLost(in Loss loss) => _log.Lose(loss);

    void IConversationListener.OnElapsed(in Interval interval) => _timing.Check(interval);

    void IConversationListener.OnBegan(in Delivery delivery) =>
        _rules.OnBegan(delivery, _conversation);

    void IConversationListener.OnMisacknowledged(in Delivery delivery, int messageId, long timeUs) =>
        _rules.OnMisacknowledged(delivery, messageId, timeUs, _conversation);

    void IConversationListener.OnClosed(in Delivery delivery, Closing closing, long timeUs) =>
        _rules.OnClosed(delivery, closing, timeUs, _conversation);

    void IConversationListener.OnGarbled(Garbled garbled) =>
        _rules.OnGarbled(garbled, _conversation);

    void IConversationListener.OnAnswered(Exchange exchange, in Delivery answer) =>
        _rules.OnAnswered(exchange, answer, _conversation);

    void IConversationListener.OnUnanswered(Exchange exchange, long timeUs, bool isProven) =>
        _rules.OnUnanswered(exchange, timeUs, isProven, _conversation);

    void IConversationListener.OnSuperseded(Exchange exchange, in Delivery next) =>
        _rules.OnSuperseded(exchange, next, _conversation);

    void IConversationListener.OnNotCompleted(Exchange exchange, in Delivery next) =>
        _rules.OnNotCompleted(exchange, next, _conversation);

    void IConversationListener.OnChunkMissing(in Delivery request, in Delivery instead) =>
        _rules.OnChunkMissing(request, instead, _conversation);

    void IConversationListener.OnChunkFault(in Delivery delivery, in ChunkFault fault) =>
        _rules.OnChunkFault(delivery, fault, _conversation);

    void IConversationListener.OnHardReset(long timeUs) =>
        _rules.OnHardReset(timeUs, _conversation);

    void IConversationListener.OnEnd() =>
        _rules.OnEnd(_conversation);
}
