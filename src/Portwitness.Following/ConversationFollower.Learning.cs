using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Requests;

namespace Portwitness.Following;

// What a message changes for those after it.
public sealed partial class ConversationFollower
{
    // Only here are the words at hand.
    private void LearnRequest(in HeardMessage message)
    {
        if (message.Sop == SopKind.Sop && (message.Kind == MessageKind.Request || message.Kind == MessageKind.EPRRequest))
        {
            _conversation.Requested = message.Known.IsEmpty && message.View.CompleteObjects > 0
                ? (new RequestObject(message.View.ObjectAt(0)), message.TimeUs)
                : null;
        }
    }

    private void Learn(in Delivery delivery, Exchange answered)
    {
        _conversation.DataRoles.OnMessage(delivery);
        if (delivery.FromSourceOrPlug && delivery.Kind.IsSourceList && !delivery.IsLaterChunk)
        {
            _conversation.ListUs = delivery.FirstUs;
        }

        if (delivery.Kind == MessageKind.PSRDY && answered.Row?.Sequel == Sequel.PowerTransition && _conversation.Contracts.AnyReady)
        {
            _conversation.Grant();
        }
        else if (delivery.Kind == MessageKind.Wait && answered.Row is { } row)
        {
            _pace.OnWait(row.Request, delivery);
        }
        else if (delivery.Kind == MessageKind.Accept && answered.Row?.Request == MessageKind.SoftReset)
        {
            _pace.OwesList(delivery);
        }
        else if (delivery.Kind == MessageKind.SourceCapabilities)
        {
            _conversation.Lists = (_conversation.Lists.All + 1, _conversation.Lists.Acknowledged);
        }
        else if (delivery.Kind == MessageKind.Request || delivery.Kind == MessageKind.EPRRequest)
        {
            (_conversation.AnyRequest, _conversation.UnansweredListUs) = (true, -1);
        }
        else if (delivery.Kind == MessageKind.EPRMode)
        {
            LearnMode(delivery);
        }

        if (_links.RolesChange)
        {
            _swap.Begin(delivery, _conversation.IsEpr);
            _exchanges.Forget();
            _pace.Reset();
            _conversation.GrantedRequest = null;
            _conversation.DataRoles.Forget();
        }
    }

    private void LearnMode(in Delivery delivery)
    {
        if (delivery.Detail is (int)EprModeAction.EnterSucceeded or (int)EprModeAction.Exit)
        {
            _pace.OwesList(delivery);
        }
    }

    private void DuringSwap(in Delivery delivery)
    {
        _swap.OnBegan(delivery);
        if (delivery.Kind == MessageKind.SourceCapabilities)
        {
            _links.RolesChange = false;
            _links.Find(SopKind.Sop, !delivery.FromSourceOrPlug).Reset();
            _exchanges.Forget();
            _conversation.Forget();
            _exchanges.OnBegan(delivery);
        }
    }
}
