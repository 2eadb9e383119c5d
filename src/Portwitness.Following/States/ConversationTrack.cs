using Portwitness.Captures;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following.States;

/// <summary>
/// What two ports and their cable say, followed once: links, and the states that the ports may be in. It is told of each record
/// before anything that reads them. It judges nothing.
/// </summary>
public sealed class ConversationTrack : ILinkListener
{
    private const ushort WholeHeader = ushort.MaxValue;
    private const int SopKinds = 5;

    private readonly LinkEvents _events = new();
    private readonly bool[] _missedSinceAttach = new bool[SopKinds];
    private bool _headerTaken;
    private readonly bool[] _isHeard = new bool[2];
    private PowerMode? _modeBefore;
    private bool _showsBegin;
    private long _sourceHeardUs;
    private bool _canSwap;
    private bool _mayHaveAskedForList = true;
    private bool _mayHaveAskedForEprList = true;

    /// <summary>Begins with a capture.</summary>
    public ConversationTrack() => Links = new LinkFollower(Clock, this);

    /// <summary>What the capture's times can prove.</summary>
    public CaptureClock Clock { get; } = new();

    /// <summary>The messages of each sender.</summary>
    public LinkFollower Links { get; }

    /// <summary>The states that the ports may be in, after the last record.</summary>
    public PossibleStates States { get; } = new();

    /// <summary>
    /// SPR or EPR mode: of a message that fits neither, the mode before it, until the other side shows that nothing was missed.
    /// Null when the capture does not tell.
    /// </summary>
    public PowerMode? Mode => States.Mode ?? _modeBefore;

    /// <summary>Whether power roles are the other way round than at the attach; where the capture does not tell, as it was last known.</summary>
    public bool RolesSwapped { get; private set; }

    /// <summary>Whether the source's last list may have come because it was asked for: then it says nothing of the mode.</summary>
    public bool ListMayAnswer { get; private set; }

    /// <summary>Messages follow each other; a listing of objects has none that do.</summary>
    public bool IsConversation { get; private set; } = true;

    /// <summary>
    /// What was known of the states held until this time; what came later may have been changed by messages that the capture misses.
    /// It is the time of the last doubt.
    /// </summary>
    public long UncertainSinceUs { get; private set; } = long.MinValue;

    /// <summary>Whether messages of this kind are missing since the attach, or the begin of the capture.</summary>
    public bool HasMissed(SopKind sop) => _missedSinceAttach[(int)sop];

    /// <summary>
    /// What a source's list says of Dual-Role Power (R3.2v1.1, 6.4.1.2.1.1). A swap that was seen counts more, and so does a list that said
    /// otherwise: the other of the two may be the partner's.
    /// </summary>
    public void OnDualRolePower(bool isDualRole)
    {
        _canSwap |= isDualRole;
        States.OnDualRolePower(_canSwap);
    }

    /// <summary>Tells what the last record made of the links.</summary>
    public void TellTo(ILinkListener listener) => _events.TellTo(listener);

    /// <summary>The capture's header; later ones say nothing of what came before them.</summary>
    public void OnHeader(CaptureHeader header)
    {
        if (!_headerTaken)
        {
            _headerTaken = true;
            Clock.OnHeader(header);
            IsConversation = header.IsConversation;
        }
    }

    /// <summary>A message.</summary>
    public void OnMessage(in HeardMessage message)
    {
        if (!IsConversation)
        {
            return;
        }

        Clock.OnFrame(message.TimeUs, message.FrameBits);
        if (message.HeaderKnown != WholeHeader)
        {
            Links.Miss(Loss.OfAny(message.TimeUs));
        }
        else if (message.CrcOk == false)
        {
            Links.Garble(message);
        }
        else
        {
            Links.OnMessage(message);
        }
    }

    /// <summary>A frame that broke: it may have been any message, a GoodCRC too.</summary>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        if (IsConversation)
        {
            Links.Miss(Loss.OfAny(frame.TimeUs, frame.Sop));
        }
    }

    /// <summary>A reset signal.</summary>
    public void OnSignal(SignalRecord signal)
    {
        if (signal.Kind == SignalKind.CableReset)
        {
            Links.ResetCables(signal.TimeUs);
        }
        else
        {
            Restart(signal.TimeUs, Closing.HardReset);
            States.OnHardReset();
        }
    }

    /// <summary>An event at the captured port.</summary>
    public void OnEvent(EventRecord happened)
    {
        if (happened.Name is CaptureEvents.Attach or CaptureEvents.Detach)
        {
            Restart(happened.TimeUs, Closing.Broken);
            States.Restart();
            RolesSwapped = false;
            Array.Clear(_missedSinceAttach);
        }
        else if (happened.Name is CaptureEvents.Dropped or CaptureEvents.NotSent or CaptureEvents.NotAcknowledged)
        {
            Links.Miss(Loss.OfAny(happened.TimeUs));
            if (happened.Name == CaptureEvents.Dropped)
            {
                States.Forget();
                (_modeBefore, UncertainSinceUs) = (null, happened.TimeUs);
            }
        }
    }

    /// <summary>The capture has ended.</summary>
    public void Complete(long timeUs)
    {
        Links.ResetAll(timeUs);
    }

    void ILinkListener.OnBegan(in Delivery delivery)
    {
        _events.OnBegan(delivery);
        if (delivery.Sop == SopKind.Sop)
        {
            Follow(delivery);
        }
    }

    void ILinkListener.OnRetry(in Delivery delivery, long previousUs) => _events.OnRetry(delivery, previousUs);

    void ILinkListener.OnAcknowledged(in Delivery delivery) => _events.OnAcknowledged(delivery);

    void ILinkListener.OnMisacknowledged(in Delivery delivery, int messageId, long timeUs) =>
        _events.OnMisacknowledged(delivery, messageId, timeUs);

    void ILinkListener.OnClosed(in Delivery delivery, Closing closing, long timeUs) => _events.OnClosed(delivery, closing, timeUs);

    void ILinkListener.OnGarbled(Garbled garbled) => _events.OnGarbled(garbled);

    void ILinkListener.OnForgotten(Link link) => _events.OnForgotten(link);

    void ILinkListener.OnLost(in Loss loss)
    {
        _events.OnLost(loss);
        if (loss.Count == 0)
        {
            return;
        }

        if (loss.Sop is { } sop)
        {
            _missedSinceAttach[(int)sop] = true;
        }
        else
        {
            Array.Fill(_missedSinceAttach, true);
        }

        if (loss.MayBe(SopKind.Sop))
        {
            UncertainSinceUs = loss.SinceUs;
            Lose(loss);
        }
    }

    private void Lose(in Loss loss)
    {
        if (loss.FromSourceOrPlug is not true)
        {
            (_mayHaveAskedForList, _mayHaveAskedForEprList) = (true, true);
        }

        if (loss.FromSourceOrPlug is { } fromSource)
        {
            States.Lose(fromSource, loss.Count);
        }
        else
        {
            States.LoseOne();
        }

        (_modeBefore, _showsBegin) = (States.Mode, false);
    }

    private void Follow(in Delivery delivery)
    {
        MessageKind kind = delivery.Kind;
        bool isDetailed = delivery.Detail != Delivery.NoDetail;
        bool answers = (kind == MessageKind.SourceCapabilities && _mayHaveAskedForList)
            || (kind == MessageKind.EPRSourceCapabilities && _mayHaveAskedForEprList);
        EprModeAction? action = kind == MessageKind.EPRMode && isDetailed ? (EprModeAction)delivery.Detail : null;

        // After a reset that the capture misses the source's capabilities come first, with MessageID 0.
        bool beginsAnew = kind == MessageKind.SourceCapabilities && delivery.Header.MessageId == 0;
        SaidMessage said = new(kind, action, delivery.FromSourceOrPlug, delivery.Index)
        {
            GoesOn = (delivery.Continuity == Continuity.Continuous && !beginsAnew) || BeginsAsShown(delivery),
            MayBeginAnew = beginsAnew,
            MayAnswer = answers,
        };
        if (delivery.IsLaterChunk)
        {
            return;
        }

        ListMayAnswer = kind.IsSourceList ? answers : ListMayAnswer;
        if (kind == MessageKind.PRSwap || kind == MessageKind.FRSwap)
        {
            OnDualRolePower(true);
        }

        _modeBefore = States.Mode;
        _isHeard[delivery.FromSourceOrPlug ? 1 : 0] = true;
        if (!States.OnMessage(said))
        {
            UncertainSinceUs = delivery.FirstUs;
        }
        else if (said.MayBeginAnew)
        {
            UncertainSinceUs = _sourceHeardUs;
        }

        RolesSwapped = States.RolesSwapped ?? RolesSwapped;
        _sourceHeardUs = delivery.FromSourceOrPlug ? delivery.FirstUs : _sourceHeardUs;
        if (kind == MessageKind.SourceCapabilities)
        {
            _mayHaveAskedForList = false;
        }
        else if (kind == MessageKind.EPRSourceCapabilities)
        {
            _mayHaveAskedForEprList = false;
        }
        else if (kind == MessageKind.GetSourceCap)
        {
            _mayHaveAskedForList = true;
        }
        else if (kind == MessageKind.ExtendedControl && (!isDetailed || delivery.Detail == (int)ExtendedControlType.EprGetSourceCap))
        {
            _mayHaveAskedForEprList = true;
        }
    }

    // The first message of a sender since an attach or a reset that the capture shows.
    private bool BeginsAsShown(in Delivery delivery) =>
        _showsBegin && delivery.Header.MessageId == 0 && !_isHeard[delivery.FromSourceOrPlug ? 1 : 0];

    private void Restart(long timeUs, Closing closing)
    {
        (_isHeard[0], _isHeard[1], _showsBegin) = (false, false, true);
        Links.ResetAll(timeUs, closing);
        _modeBefore = PowerMode.Spr;
        (_mayHaveAskedForList, _mayHaveAskedForEprList) = (false, false);
    }
}
