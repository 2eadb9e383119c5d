using Portwitness.Analysis.Conversation;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Exchanges;

/// <summary>
/// Follows what is said from message to message, and has the rules about sequence and timing look at it. Memory does not
/// grow with the capture; nothing is allocated for a message that is as it should be.
/// </summary>
internal sealed partial class ConversationFollower : ICaptureFollower, ILinkListener
{
    private const ushort WholeHeader = ushort.MaxValue;

    private readonly CaptureContext _context;
    private readonly ConversationTrack _track;
    private readonly CaptureClock _clock;
    private readonly SuspicionLog _log;
    private readonly TimingChecks _timing;
    private readonly LinkFollower _links;
    private readonly ConversationState _conversation;
    private readonly ExchangeFollower _exchanges;
    private readonly PaceFollower _pace;
    private readonly RoleSwapFollower _swap;

    public ConversationFollower(CaptureContext context)
    {
        _context = context;
        _track = context.Track;
        (_clock, _links) = (_track.Clock, _track.Links);
        _log = new SuspicionLog(context);
        _conversation = new ConversationState(context, _log);
        _timing = new TimingChecks(_clock, _log, context.Rules.Timing);
        _log.KnowsNext = (sop, end) => _links.Of(sop, end).KnowsNext;
        _exchanges = new ExchangeFollower(_conversation, _timing, _links);
        _pace = new PaceFollower(_conversation, _timing);
        _swap = new RoleSwapFollower(_timing);
    }

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        if (!_track.IsConversation)
        {
            return;
        }

        (_conversation.Index, _conversation.NowUs) = (message.Index, message.TimeUs);
        if (message.HeaderKnown != WholeHeader)
        {
            Miss();
        }

        bool isSaid = message.HeaderKnown == WholeHeader && message.CrcOk != false;
        if (isSaid)
        {
            LearnRequest(message);
        }

        _track.TellTo(this);
        if (isSaid)
        {
            OnChunks(message);
        }
    }

    /// <inheritdoc/>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        if (_track.IsConversation)
        {
            _conversation.NowUs = frame.TimeUs;
            Miss();
            _track.TellTo(this);
        }
    }

    /// <inheritdoc/>
    public void BeforeSignal(SignalRecord signal)
    {
        if (signal.Kind == SignalKind.HardReset && _track.IsConversation)
        {
            _pace.OnHardReset(signal.TimeUs);
        }
    }

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal)
    {
        if (!_track.IsConversation)
        {
            return;
        }

        _conversation.NowUs = signal.TimeUs;
        if (signal.Kind == SignalKind.CableReset)
        {
            _track.TellTo(this);
            return;
        }

        _exchanges.OnHardReset(signal.TimeUs);
        _conversation.ResetsInARow++;
        _context.Rules.Sequence.OnHardReset(signal.TimeUs, _conversation);

        Restart();
        _pace.ExpectVbus(isOn: true);
    }

    /// <inheritdoc/>
    public void OnMeasurement(MeasurementRecord measurement)
    {
        _conversation.NowUs = measurement.TimeUs;
        if (measurement.VbusMillivolts is { } millivolts && !_clock.IsSoftware)
        {
            _pace.OnMeasured(measurement.TimeUs, millivolts);
        }
    }

    /// <inheritdoc/>
    public void OnEvent(EventRecord happened)
    {
        _conversation.NowUs = happened.TimeUs;
        if (happened.Port is { } port && port != _context.Port)
        {
            return;
        }

        if (happened.Name is CaptureEvents.Attach or CaptureEvents.Detach)
        {
            Restart();
            if (happened.Name == CaptureEvents.Attach)
            {
                _pace.ExpectVbus(isOn: false);
            }

            _conversation.ResetsInARow = 0;
        }
        else if (happened.Name is CaptureEvents.Dropped or CaptureEvents.NotSent or CaptureEvents.NotAcknowledged)
        {
            _track.TellTo(this);
        }
        else if (happened.Name == CaptureEvents.VbusOn && !_clock.IsSoftware)
        {
            _pace.OnVbusOn(happened.TimeUs);
        }
    }

    // A message that is not known to be what it is may have changed anything.
    private void Miss()
    {
        _exchanges.Forget();
        _pace.Reset();
    }

    /// <inheritdoc/>
    public void Complete()
    {
        if (_track.IsConversation)
        {
            _exchanges.Complete(_conversation.NowUs);
            _pace.Complete(_conversation.NowUs);
        }

        _track.Complete(_conversation.NowUs);
        _track.TellTo(this);
        if (_track.IsConversation)
        {
            _context.Rules.Sequence.OnEnd(_conversation);
        }

        _log.Complete(_clock.IsSoftware);
    }

    void ILinkListener.OnBegan(in Delivery delivery)
    {
        if (delivery.GoesOnForCertain)
        {
            _log.Confirm(delivery.Sop, delivery.FromSourceOrPlug);
        }

        if (_links.RolesChange && delivery.Sop == SopKind.Sop)
        {
            DuringSwap(delivery);
            return;
        }

        _context.Rules.Sequence.OnBegan(delivery, _conversation);

        if (delivery.Sop == SopKind.Sop)
        {
            _pace.OnBegan(delivery);
        }

        Exchange? answered = delivery.Sop == SopKind.Sop ? _conversation.Exchanges[delivery.FromSourceOrPlug ? 0 : 1] : null;
        _exchanges.OnBegan(delivery);
        if (delivery.Sop == SopKind.Sop)
        {
            Learn(delivery, answered!);
            _conversation.Last = delivery;
            _conversation.IsAlive[delivery.FromSourceOrPlug ? 1 : 0] = true;
        }
    }

    void ILinkListener.OnRetry(in Delivery delivery, long previousUs)
    {
        Update(delivery);
        Interval retry = new(TimingLimits.TReceive, new Moment(previousUs, delivery.Bits, true), new Moment(delivery.LastUs, delivery.Bits, false))
        {
            Party = Of(delivery), What = $"a retry of {delivery.Kind.Name}", Index = delivery.Index, Bounds = Bounds.Min,
        };
        _timing.Take(retry);

        // An attempt that the capture misses in between takes as long as this.
        _timing.Take(retry with
        {
            Bounds = Bounds.Max, AllowedUs = RetryTimes.MostRetryUs,
            IsProven = _clock.Between(retry.From, retry.To).MostUs < (2 * RetryTimes.LeastReceiveUs) + BitRate.LeastUs(delivery.Bits),
        });
    }

    void ILinkListener.OnAcknowledged(in Delivery delivery)
    {
        Update(delivery);
        _conversation.IsAlive[delivery.FromSourceOrPlug ? 0 : 1] |= delivery.Sop == SopKind.Sop;
        if (delivery.Kind == MessageKind.SourceCapabilities)
        {
            _conversation.Lists = (_conversation.Lists.All, _conversation.Lists.Acknowledged + 1);
            if (_conversation.UnansweredListUs < 0)
            {
                _conversation.UnansweredListUs = delivery.FirstUs;
            }
        }

        // The GoodCRC of a retry that the capture misses comes later than this.
        Moment start = Moment.StartOfGoodCrc(delivery.AcknowledgedUs);
        _timing.Take(new Interval(TimingLimits.TTransmit, delivery.End, start)
        {
            Party = _links.RolesChange ? Party.Unsure : _conversation.Other(delivery),
            What = "GoodCRC",
            Index = delivery.Index,
            Bounds = Bounds.Max,
            IsProven = _clock.Between(delivery.End, start).MostUs < RetryTimes.LeastReceiveUs + BitRate.LeastUs(delivery.Bits),
        });
    }

    void ILinkListener.OnClosed(in Delivery delivery, Closing closing, long timeUs)
    {
        if (_links.RolesChange)
        {
            return;
        }

        if (delivery.Sop == SopKind.Sop)
        {
            _pace.OnClosed(delivery);
        }

        _context.Rules.Sequence.OnClosed(delivery, closing, timeUs, _conversation);
    }

    void ILinkListener.OnMisacknowledged(in Delivery delivery, int messageId, long timeUs)
    {
        _context.Rules.Sequence.OnMisacknowledged(delivery, messageId, timeUs, _conversation);
    }

    void ILinkListener.OnGarbled(Garbled garbled)
    {
        _context.Rules.Sequence.OnGarbled(garbled, _conversation);
    }

    void ILinkListener.OnForgotten(Link link) => _log.Forget(link.Sop, link.FromSourceOrPlug);

    void ILinkListener.OnLost(in Loss loss)
    {
        _log.Lose(loss.TimeUs);
        if (loss.MayBe(SopKind.Sop))
        {
            _conversation.LostUs = Math.Max(_conversation.LostUs, loss.TimeUs);
            _conversation.DataRoles.Forget();
        }
    }

    private Party Of(in Delivery delivery) => _links.RolesChange ? Party.Unsure : _conversation.PartyOf(delivery);

    private void Update(in Delivery delivery)
    {
        _exchanges.Update(delivery);
        if (delivery.Sop == SopKind.Sop)
        {
            _pace.Update(delivery);
            _swap.Update(delivery);
            if (_conversation.Last is { } last && last.Index == delivery.Index)
            {
                _conversation.Last = delivery;
            }
        }
    }

    private void OnChunks(in HeardMessage message)
    {
        if (message.ChunkFaults.IsDefaultOrEmpty)
        {
            return;
        }

        Delivery delivery = _links.Of(message.Sop, message.FromSourceOrPlug).Current;
        foreach (ChunkFault fault in message.ChunkFaults)
        {
            _context.Rules.Sequence.OnChunkFault(delivery, fault, _conversation);
        }
    }

    private void Restart()
    {
        _track.TellTo(this);
        _exchanges.Forget();
        _pace.Reset();
        _swap.Reset();
        _conversation.Forget();
        _conversation.DataRoles.Restart();
        _conversation.RestartedUs = _conversation.NowUs;
    }
}
