using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Follows the question to the cable and its answer, and has the cable rules judge what a source does with it. Offers and
/// EPR mode are judged at the end, when it is known whether the instrument records SOP' at all; the first of a kind counts.
/// </summary>
internal sealed class CableFollower(CaptureContext context) : ICaptureFollower
{
    private const int MaxAnswers = 100;

    private readonly Dictionary<(CableMoment Moment, CableInquiry Inquiry), CableCase> _cases = [];
    private readonly OfferedObject[] _objects = new OfferedObject[MessageLimits.MaxExtendedObjects];
    private bool _sinceAttach;
    private bool _sawSopPrime;
    private bool _inEpr;
    private int _answers;
    private CableInquiry _inquiry;
    private CableAnswer? _best;
    private CableAnswer? _last;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        if (message.Sop is SopKind.SopPrime or SopKind.SopDoublePrime)
        {
            _sawSopPrime = true;
            OnCableMessage(message);
        }
        else if (message.Sop == SopKind.Sop && message.CrcOk != false && message.FromSourceOrPlug)
        {
            OnSourceMessage(message);
        }
    }

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal) => _inEpr &= signal.Kind != SignalKind.HardReset;

    /// <inheritdoc/>
    public void OnEvent(EventRecord happened)
    {
        if (happened.Name is not (CaptureEvents.Attach or CaptureEvents.Detach)
            || (happened.Port is { } port && port != context.Port))
        {
            return;
        }

        _sinceAttach = happened.Name == CaptureEvents.Attach;
        (_inquiry, _best, _last, _inEpr) = (CableInquiry.NotAsked, null, null, false);
    }

    /// <inheritdoc/>
    public void Complete()
    {
        bool? records = _sawSopPrime ? true
            : context.Header is { RecordsSop.IsEmpty: false } header ? header.RecordsSop.Contains(SopKind.SopPrime)
            : context.Header?.Origin == CaptureOrigin.OpenFormat ? null
            : false;
        foreach (CableCase seen in _cases.Values.OrderBy(seen => seen.MessageIndex))
        {
            Judge(seen with { RecordsSopPrime = records, Editions = context.Facts.Editions });
        }
    }

    private void OnCableMessage(in HeardMessage message)
    {
        if (message.CrcOk == false || !message.Known.IsEmpty)
        {
            _inquiry = _inquiry == CableInquiry.Answered ? _inquiry : CableInquiry.Unclear;
        }
        else if (CableAnswer.Of(message.View, message.Sop) is { } answer)
        {
            OnAnswer(message, answer);
        }
        else if (message.Kind == MessageKind.VendorDefined && _inquiry != CableInquiry.Answered)
        {
            // An answer that tells no identity (NAK, BUSY) leaves open what the source learned.
            _inquiry = message.FromSourceOrPlug ? CableInquiry.Unclear
                : _inquiry == CableInquiry.NotAsked && IsQuestion(message) ? CableInquiry.Unanswered
                : _inquiry;
        }
    }

    private static bool IsQuestion(in HeardMessage message) =>
        VendorDefinedView.TryRead(message.View, message.Sop, out VendorDefinedView vdm)
        && vdm.Header is { Structured: true, VendorId: VdmHeader.PdSid, Command: 1, CommandType: VdmCommandType.Request };

    private void OnAnswer(in HeardMessage message, CableAnswer answer)
    {
        if (answer != _last && _answers++ < MaxAnswers)
        {
            Judge(Case(CableMoment.Answer, message) with { Answer = answer, Before = _last });
        }

        _last = answer;
        if (answer.Sop == SopKind.SopPrime)
        {
            _inquiry = CableInquiry.Answered;
            _best = _best is null || answer.SuitsEpr ? answer : _best;
        }
    }

    private void OnSourceMessage(in HeardMessage message)
    {
        if (message.Kind == MessageKind.SourceCapabilities)
        {
            int count = CapabilityChecker.ReadObjects(message.View, message.Known, _objects);
            foreach (OfferedObject offered in _objects.AsSpan(0, count))
            {
                if (offered.MaximumCurrent() is { } current && current > PowerDelivery.Limits.Electrical.UnmarkedCableMaximum)
                {
                    Keep(Case(CableMoment.OfferAbove3A, message) with { Offer = (offered.Position, current) });
                    return;
                }
            }
        }
        else if (message.Kind == MessageKind.EPRMode && message.View.CompleteObjects > 0 && message.Known.IsEmpty)
        {
            EprModeAction action = new EprModeObject(message.View.ObjectAt(0)).Action;
            if (action == EprModeAction.EnterSucceeded && !_inEpr)
            {
                Keep(Case(CableMoment.EprEntered, message) with { Answer = _best });
            }

            _inEpr = action == EprModeAction.EnterSucceeded || (_inEpr && action != EprModeAction.Exit);
        }
    }

    private CableCase Case(CableMoment moment, in HeardMessage message) => new()
    {
        Moment = moment,
        TimeUs = message.TimeUs,
        MessageIndex = message.Index,
        InUse = context.Arrangement.InUse,
        Inquiry = _inquiry is CableInquiry.NotAsked or CableInquiry.Unanswered && context.Track.HasMissed(SopKind.SopPrime)
            ? CableInquiry.Unclear
            : _inquiry,
        SinceAttach = _sinceAttach,
        Captive = context.Options.CaptiveCable == true || context.Header?.Cable?.Captive == true,
        Stated = context.Header?.Cable,
    };

    private void Keep(CableCase seen) => _cases.TryAdd((seen.Moment, seen.Inquiry), seen);

    private void Judge(CableCase seen)
    {
        context.FindAt(seen.TimeUs, seen.MessageIndex, seen.InUse);
        foreach (CableRule rule in context.Rules.Cables)
        {
            rule.Check(seen, context.Findings);
        }
    }
}
