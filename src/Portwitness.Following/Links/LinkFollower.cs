using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Following.Links;

/// <summary>
/// Pairs messages with their retries and GoodCRCs, for each SOP kind and sender, and notices by MessageIDs and GoodCRCs
/// where the capture misses something (R3.2v1.1, 6.7.1).
/// </summary>
public sealed class LinkFollower(CaptureClock clock, ILinkListener listener)
{
    private const int SopKinds = 5;

    private readonly Link[] _links = [.. Enumerable.Range(0, 2 * SopKinds).Select(i => new Link((SopKind)(i / 2), i % 2 == 1))];
    private readonly Link?[] _lastSpeaker = new Link?[SopKinds];

    /// <summary>Roles change now: which port a message is from cannot be told by its header (R3.2v1.1, 6.2.1.1.4).</summary>
    public bool RolesChange { get; set; }

    /// <summary>The messages of one sender.</summary>
    public Link Find(SopKind sop, bool fromSourceOrPlug) => _links[((int)sop * 2) + (fromSourceOrPlug ? 1 : 0)];

    /// <summary>A message whose CRC was right or is not known, with its whole header.</summary>
    public void OnMessage(in HeardMessage message)
    {
        if (message.Kind == MessageKind.GoodCRC)
        {
            OnGoodCrc(message);
            return;
        }

        Link link = Find(message.Sop, message.FromSourceOrPlug);
        if (_lastSpeaker[(int)message.Sop] == link && link.IsRetry(message, clock.UncertaintyUs))
        {
            long previousUs = link.Current.LastUs;
            link.Retry(message);
            listener.OnRetry(link.Current, previousUs);
            return;
        }

        _lastSpeaker[(int)message.Sop] = link;
        long heardUs = link.HeardUs;
        Close(link, message.Kind == MessageKind.SoftReset ? Closing.SoftReset : Closing.NextMessage, message.TimeUs);
        if (message.Kind == MessageKind.SoftReset)
        {
            Reset(message.Sop, message.TimeUs);
        }

        if (RolesChange)
        {
            Forget(link);
        }

        (int detail, VdmHeader vdm) = DetailOf(message);
        link.Begin(message, detail, vdm);
        GiveUpGarbled(link);
        if (link.Current.Continuity == Continuity.Gap)
        {
            listener.OnForgotten(link);
            listener.OnLost(new Loss(message.Sop, message.FromSourceOrPlug, link.Current.MissedBefore, heardUs, message.TimeUs));
        }

        listener.OnBegan(link.Current);
    }

    /// <summary>A message that was received wrongly.</summary>
    public void Garble(in HeardMessage message)
    {
        if (message.Kind == MessageKind.GoodCRC)
        {
            Link acknowledged = Find(message.Sop, !message.FromSourceOrPlug);
            acknowledged.Current.AcknowledgementIsGarbled = true;
            listener.OnGarbled(new Garbled(message.View.Header.Raw, 0, message.TimeUs, message.TimeUs, message.Index, 1));
            return;
        }

        Find(message.Sop, message.FromSourceOrPlug).Garble(message);
    }

    /// <summary>A message of which the header was not shown: anybody may have said anything.</summary>
    public void Miss(in Loss loss)
    {
        foreach (Link link in _links)
        {
            Forget(link);
        }

        listener.OnLost(loss);
    }

    /// <summary>Counters of one SOP kind begin anew.</summary>
    public void Reset(SopKind sop, long timeUs, Closing closing = Closing.Broken)
    {
        for (int end = 0; end < 2; end++)
        {
            Link link = _links[((int)sop * 2) + end];
            GiveUpGarbled(link);
            Close(link, closing, timeUs);
            Forget(link);
        }
    }

    /// <summary>All counters begin anew: a Hard Reset, an attach or a detach.</summary>
    public void ResetAll(long timeUs, Closing closing = Closing.Broken)
    {
        RolesChange = false;
        for (SopKind sop = SopKind.Sop; (int)sop < SopKinds; sop++)
        {
            Reset(sop, timeUs, closing);
        }
    }

    /// <summary>Counters towards cables begin anew: another port may speak to them from now on.</summary>
    public void ResetCables(long timeUs)
    {
        for (SopKind sop = SopKind.SopPrime; (int)sop < SopKinds; sop++)
        {
            Reset(sop, timeUs);
        }
    }

    private void OnGoodCrc(in HeardMessage message)
    {
        Link link = Find(message.Sop, !message.FromSourceOrPlug);
        int id = message.View.Header.MessageId;
        if (RolesChange && !(link.IsOpen && link.Current.Header.MessageId == id))
        {
            link = Find(message.Sop, message.FromSourceOrPlug);
        }

        if (link.IsOpen && link.Current.Header.MessageId == id)
        {
            link.Acknowledge(message.TimeUs);
            listener.OnAcknowledged(link.Current);
        }
        else if (!RolesChange && !ExplainsGoodCrc(link, Find(message.Sop, message.FromSourceOrPlug), message))
        {
            Loss loss = new(link.Sop, link.FromSourceOrPlug, link.MissedUntil(id), link.HeardUs, message.TimeUs);
            link.Miss(id, message.TimeUs);
            listener.OnForgotten(link);
            listener.OnLost(loss);
        }
    }

    // A GoodCRC that begins before tReceive can have run out is for the message right before it: no other message has room.
    private bool ExplainsGoodCrc(Link link, Link ownRole, in HeardMessage message)
    {
        int id = message.View.Header.MessageId;
        if (message.Sop == SopKind.Sop && ownRole.Current.Header.MessageId == id && Follows(ownRole, message))
        {
            ownRole.AcknowledgeByItsOwnRole();
            link.Miss(id, message.TimeUs);
            listener.OnForgotten(link);
            return true;
        }

        if (Follows(link, message))
        {
            listener.OnMisacknowledged(link.Current, id, message.TimeUs);
            return true;
        }

        return false;
    }

    private bool Follows(Link link, in HeardMessage message) =>
        link.IsOpen && _lastSpeaker[(int)message.Sop] == link && !link.Current.IsAcknowledged
        && !link.Current.HasGoodCrcOfItsOwnRole && clock is { KnowsStep: true, IsUseless: false }
        && clock.Between(link.Current.End, Moment.StartOfGoodCrc(message.TimeUs)).MostUs < RetryTimes.LeastReceiveUs;

    private void Forget(Link link)
    {
        link.Reset();
        listener.OnForgotten(link);
    }

    private void GiveUpGarbled(Link link)
    {
        if (link.Waiting.Count > 0)
        {
            listener.OnGarbled(link.Waiting);
            listener.OnLost(Loss.OfAny(link.Waiting.LastUs, link.Sop));
            link.ForgetGarbled();
        }
    }

    private void Close(Link link, Closing closing, long timeUs)
    {
        if (!link.IsOpen)
        {
            return;
        }

        link.Close();
        link.Current.AcknowledgementsAreShown = link.IsAcknowledgedVisibly;

        // Whoever is not acknowledged tries again: where neither is seen, the capture misses it.
        Delivery closed = link.Current;
        if (closing == Closing.NextMessage && link.IsAcknowledgedVisibly && !closed.IsAcknowledged && !closed.HasGoodCrcOfItsOwnRole
            && !closed.IsNeverRetried && closed.Attempts < closed.AllowedAttempts && !RolesChange)
        {
            listener.OnLost(new Loss(link.Sop, link.FromSourceOrPlug, 0, closed.LastUs, closed.LastUs));
        }

        listener.OnClosed(closed, closing, timeUs);
    }

    private static (int Detail, VdmHeader Vdm) DetailOf(in HeardMessage message)
    {
        MessageView view = message.View;
        if (!message.Known.IsEmpty)
        {
            return (Delivery.NoDetail, default);
        }

        if (view.Header.Kind == MessageKind.ExtendedControl && view.Data.Length > 0)
        {
            return (view.Data[0], default);
        }

        if (view.CompleteObjects == 0)
        {
            return (Delivery.NoDetail, default);
        }

        uint first = view.ObjectAt(0);
        if (view.Header.Kind == MessageKind.EPRMode)
        {
            return ((int)new EprModeObject(first).Action, default);
        }

        VdmHeader vdm = new(first);
        return view.Header.Kind == MessageKind.VendorDefined && vdm.Structured
            ? ((vdm.VendorId << 5) | vdm.Command, vdm)
            : (Delivery.NoDetail, default);
    }
}
