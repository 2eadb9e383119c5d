using Portwitness.Captures;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.Following.States;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following;

/// <summary>
/// Follows what is said from message to message and tells what happens: what was answered, what never came, how long it took. Memory
/// does not grow with the capture; nothing is allocated for a message that is as it should be.
/// </summary>
public sealed partial class ConversationFollower : ILinkListener
{
    private const ushort WholeHeader = ushort.MaxValue;

    private readonly Conversation _conversation;
    private readonly ConversationTrack _track;
    private readonly CaptureClock _clock;
    private readonly LinkFollower _links;
    private readonly IConversationListener _listener;
    private readonly ExchangeFollower _exchanges;
    private readonly PaceFollower _pace;
    private readonly RoleSwapFollower _swap;

    /// <summary>Begins with a capture.</summary>
    /// <param name="conversation">What is known of it; its track is told of each record first.</param>
    /// <param name="listener">Who is told what happens.</param>
    public ConversationFollower(Conversation conversation, IConversationListener listener)
    {
        (_conversation, _track, _listener) = (conversation, conversation.Track, listener);
        (_clock, _links) = (_track.Clock, _track.Links);
        _exchanges = new ExchangeFollower(conversation, _links, listener);
        _pace = new PaceFollower(conversation, listener);
        _swap = new RoleSwapFollower(listener);
    }

    /// <summary>A message, after <see cref="ConversationTrack"/> was told of it, and what it says was learned.</summary>
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

    /// <summary>A frame that broke.</summary>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        if (_track.IsConversation)
        {
            _conversation.NowUs = frame.TimeUs;
            Miss();
            _track.TellTo(this);
        }
    }

    /// <summary>A signal, before contracts and states are told of it.</summary>
    public void BeforeSignal(SignalRecord signal)
    {
        if (signal.Kind == SignalKind.HardReset && _track.IsConversation)
        {
            _pace.OnHardReset(signal.TimeUs);
        }
    }

    /// <summary>The signal, after they were.</summary>
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
        _listener.OnHardReset(signal.TimeUs);
        Restart();
        _pace.ExpectVbus(isOn: true);
    }

    /// <summary>A measurement.</summary>
    public void OnMeasurement(MeasurementRecord measurement)
    {
        _conversation.NowUs = measurement.TimeUs;
        if (measurement.VbusMillivolts is { } millivolts && !_clock.IsSoftware)
        {
            _pace.OnMeasured(measurement.TimeUs, millivolts);
        }
    }

    /// <summary>Something at another port: it shows the time, no more.</summary>
    public void OnElsewhere(long timeUs) => _conversation.NowUs = timeUs;

    /// <summary>An event at the captured port.</summary>
    public void OnEvent(EventRecord happened)
    {
        _conversation.NowUs = happened.TimeUs;
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

    /// <summary>The capture has ended.</summary>
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
            _listener.OnEnd();
        }

    }

    void ILinkListener.OnBegan(in Delivery delivery)
    {
        if (delivery.GoesOnForCertain)
        {
            _listener.OnWentOn(delivery.Sop, delivery.FromSourceOrPlug);
        }

        if (_links.RolesChange && delivery.Sop == SopKind.Sop)
        {
            DuringSwap(delivery);
            return;
        }

        _listener.OnBegan(delivery);

        if (delivery.Sop == SopKind.Sop)
        {
            _pace.OnBegan(delivery);
        }

        Exchange? answered = delivery.Sop == SopKind.Sop ? _conversation.Exchanges[delivery.FromSourceOrPlug ? 0 : 1] : null;
        _exchanges.OnBegan(delivery);
        if (delivery.Sop == SopKind.Sop)
        {
            Learn(delivery, answered!);
            _conversation.Say(delivery);
            _conversation.IsAlive[delivery.FromSourceOrPlug ? 1 : 0] = true;
            _conversation.SaidUs[delivery.FromSourceOrPlug ? 1 : 0] = delivery.FirstUs;
        }
    }

    void ILinkListener.OnRetry(in Delivery delivery, long previousUs)
    {
        Update(delivery);
        Interval retry = new(TimingLimits.TReceive, new Moment(previousUs, delivery.Bits, true), new Moment(delivery.LastUs, delivery.Bits, false))
        {
            Party = Of(delivery), Awaited = Awaited.Retry, Name = delivery.Kind.Name, Index = delivery.Index, Bounds = Bounds.Min,
        };
        _listener.OnElapsed(retry);

        // An attempt that the capture misses in between takes as long as this.
        _listener.OnElapsed(retry with
        {
            Bounds = Bounds.Max, AllowedUs = RetryTimes.MaxRetryUs, ProvenBelowUs = (2 * RetryTimes.LeastReceiveUs) + BitRate.LeastUs(delivery.Bits),
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
        _listener.OnElapsed(new Interval(TimingLimits.TTransmit, delivery.End, start)
        {
            Party = _links.RolesChange ? Party.Unsure : _conversation.Other(delivery),
            Awaited = Awaited.GoodCrc,
            Index = delivery.Index,
            Bounds = Bounds.Max,
            ProvenBelowUs = RetryTimes.LeastReceiveUs + BitRate.LeastUs(delivery.Bits),
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

        _listener.OnClosed(delivery, closing, timeUs);
    }

    void ILinkListener.OnMisacknowledged(in Delivery delivery, int messageId, long timeUs)
    {
        _listener.OnMisacknowledged(delivery, messageId, timeUs);
    }

    void ILinkListener.OnGarbled(Garbled garbled)
    {
        _listener.OnGarbled(garbled);
    }

    void ILinkListener.OnForgotten(Link link) => _listener.OnForgotten(link.Sop, link.FromSourceOrPlug);

    void ILinkListener.OnLost(in Loss loss)
    {
        _listener.OnLost(loss);
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
            _conversation.Update(delivery);
        }
    }

    private void OnChunks(in HeardMessage message)
    {
        if (message.ChunkFaults.IsDefaultOrEmpty)
        {
            return;
        }

        Delivery delivery = _links.Find(message.Sop, message.FromSourceOrPlug).Current;
        foreach (ChunkFault fault in message.ChunkFaults)
        {
            _listener.OnChunkFault(delivery, fault);
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
