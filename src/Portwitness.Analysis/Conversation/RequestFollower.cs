using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Requests;
using Portwitness.Captures;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;

namespace Portwitness.Analysis.Conversation;

/// <summary>Collects requests with the list that they refer to and their answers, and has the request rules judge them at the end.</summary>
internal sealed class RequestFollower(CaptureContext context) : ICaptureFollower
{
    private const int Most = 1000;
    private const ushort RevisionBits = 0x00C0;
    private const int Revision3Code = 2;

    private readonly List<ObservedRequest> _requests = [];
    private readonly HashSet<ObservedRequest> _seen = [];
    private readonly List<int> _undecided = [];
    private ObservedRequest? _open;
    private int _openId;

    /// <inheritdoc/>
    public bool HearsGoodCrcs => false;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        if (message.Sop != SopKind.Sop)
        {
            return;
        }

        bool fromSource = message.FromSourceOrPlug && (message.HeaderKnown & 0x0100) != 0;
        if (message.CrcOk == false || message.Kind == MessageKind.GoodCRC)
        {
            return;
        }

        if (message.Kind == MessageKind.Request || message.Kind == MessageKind.EPRRequest)
        {
            OnRequest(message);
        }
        else if (message.Kind.IsSourceList)
        {
            OnList(message);
        }
        else if (fromSource && _open is not null)
        {
            OnAnswer(message);
        }
    }

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal)
    {
        Close(signal.Kind == SignalKind.HardReset ? RequestAnswer.Refused : RequestAnswer.None, null);
        _undecided.Clear();
    }

    /// <inheritdoc/>
    public void OnEvent(EventRecord happened)
    {
        if (context.IsOwnAttachOrDetach(happened))
        {
            Close(RequestAnswer.None, null);
            _undecided.Clear();
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        Close(RequestAnswer.None, null);
        PartnerHits ofPartner = new(context.Findings);
        DoubtedHits unsure = new(context.Findings, CaptureSteps.WholeSwap);
        foreach (ObservedRequest observed in _requests)
        {
            ObservedRequest request = observed with { Evidence = context.Facts.EvidenceFor(observed.Place.InUse, true) };
            foreach (RequestRule rule in context.Rules.Requests)
            {
                StatementPlace place = rule.IsOfSource ? request.AnswerPlace : request.Place;
                context.FindAt(place.TimeUs, place.MessageIndex, place.InUse);
                rule.Check(request, rule.IsOfSource != request.ByPartner ? ofPartner : request.RoleIsCertain ? context.Findings : unsure);
            }
        }
    }

    private void OnRequest(in HeardMessage message)
    {
        // An unanswered request with the same MessageID is a retry of it (R3.2v1.1, 6.7.1.1).
        int id = message.View.Header.MessageId;
        if (_open is not null && id == _openId)
        {
            return;
        }

        Close(RequestAnswer.None, null);
        if (!message.Known.IsEmpty || message.View.CompleteObjects == 0)
        {
            return;
        }

        _openId = id;
        _open = new ObservedRequest
        {
            Place = PlaceOf(message),
            Message = message.Kind,
            Request = new RequestObject(message.View.ObjectAt(0)),
            Copy = message.Kind == MessageKind.EPRRequest && message.View.CompleteObjects > 1
                ? new SourcePowerObject(message.View.ObjectAt(1))
                : null,
            SaysRevision3 = (message.HeaderKnown & RevisionBits) == RevisionBits
                && message.View.Header.RevisionCode == Revision3Code,
            Offers = context.Contracts.InForce,
            EprMode = context.Contracts.EprMode,
            ByPartner = context.Role.IsPartners(message.View.Header, message.HeaderKnown),
            RoleIsCertain = context.Role.IsCertain,
        };
    }

    private void OnAnswer(in HeardMessage message)
    {
        RequestAnswer answer = message.Kind == MessageKind.Accept ? RequestAnswer.Accepted
            : message.Kind == MessageKind.Reject ? RequestAnswer.Rejected
            : message.Kind == MessageKind.Wait ? RequestAnswer.Wait
            : message.Kind == MessageKind.SoftReset || message.Kind == MessageKind.NotSupported ? RequestAnswer.Refused
            : RequestAnswer.None;
        if (answer != RequestAnswer.None)
        {
            _open = _open!.Value with { EprMode = context.Contracts.EprMode };
            Close(answer, PlaceOf(message));
        }
    }

    private void OnList(in HeardMessage message)
    {
        if (message.View.ExtendedHeader is { Chunked: true } && message.Block is null)
        {
            return;
        }

        Close(RequestAnswer.None, null);
        Decide(context.Contracts.InForce.AsSpan());
    }

    private void Close(RequestAnswer answer, StatementPlace? at)
    {
        if (_open is not { } open)
        {
            return;
        }

        _open = null;
        ObservedRequest request = open with
        {
            Answer = answer,
            AnswerPlace = at ?? open.Place,
            NothingMissed = context.Track.States.ListIsSeen,
        };
        if (answer == RequestAnswer.Accepted)
        {
            Decide(request.Offers.AsSpan());
        }

        // The same once more, as PPS asks for every ten seconds, says nothing new.
        if (_requests.Count < Most && _seen.Add(request with { Place = default, AnswerPlace = default }))
        {
            _requests.Add(request);
            if (answer == RequestAnswer.Rejected)
            {
                _undecided.Add(_requests.Count - 1);
            }
        }
    }

    // What is in force now shows whether a list had changed when requests from it were refused.
    private void Decide(ReadOnlySpan<OfferedObject> now)
    {
        foreach (int index in _undecided)
        {
            ObservedRequest refused = _requests[index];
            bool same = refused.Offers.AsSpan().SequenceEqual(now);
            _requests[index] = refused with { ListStayed = same, ListChanged = !same };
        }

        _undecided.Clear();
    }

    private StatementPlace PlaceOf(in HeardMessage message) => new(message.TimeUs, message.Index, context.Arrangement.InUse);
}
