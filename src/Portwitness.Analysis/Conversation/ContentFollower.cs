using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Messages;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Has the rules about contents look at every message, and judges what they find at the end, when the edition is known. What the
/// port's partner or the cable sends is noted.
/// </summary>
internal sealed class ContentFollower(CaptureContext context) : ICaptureFollower
{
    private const int Most = 1000;

    private const string EditionNextStep =
        "State the edition (\"edition\" in the capture's header), and capture the source's Revision message, which says its version.";

    private readonly List<(ContentRule Rule, ContentFault Fault, StatementPlace Place, Sender Sender)> _found = [];

    private enum Sender
    {
        Port,
        Partner,
        CablePlug,
        EitherPort,
        UnsurePort,
    }

    /// <inheritdoc/>
    public bool HearsGoodCrcs => false;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        if (message.Kind == MessageKind.GoodCRC || message.CrcOk == false || !message.Known.IsEmpty || _found.Count == Most)
        {
            return;
        }

        foreach (ContentRule rule in context.Rules.Contents)
        {
            if (rule.Find(message) is { } fault)
            {
                StatementPlace place = new(message.TimeUs, message.Index, context.Arrangement.InUse);
                _found.Add((rule, fault, place, SenderOf(message)));
            }
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        PartnerHits partner = new(context.Findings);
        foreach ((ContentRule rule, ContentFault fault, StatementPlace place, Sender sender) in _found)
        {
            context.FindAt(place.TimeUs, place.MessageIndex, place.InUse);
            if (Settle(fault) is { } verdict)
            {
                Hit hit = new(sender is Sender.EitherPort or Sender.UnsurePort ? Verdict.CannotTell : verdict, fault.Detail)
                {
                    Expected = fault.Expected,
                    Observed = fault.Observed,
                    IsNote = fault.IsNote,
                    NextStep = fault.IsNote || (verdict == Verdict.Fails && sender == Sender.Port) ? null
                        : verdict == Verdict.Fails && sender == Sender.UnsurePort ? CaptureSteps.WholeSwap
                        : verdict == Verdict.Fails ? "Find out which port was the VCONN source: it speaks with the cable."
                        : EditionNextStep,
                };
                switch (sender)
                {
                    case Sender.Partner:
                        partner.Report(rule, hit);
                        break;
                    case Sender.CablePlug:
                        context.Findings.Report(rule, hit with
                        {
                            IsNote = true, Detail = hit.Detail + " The cable sent it.", NextStep = null,
                        });
                        break;
                    default:
                        context.Findings.Report(rule, hit);
                        break;
                }
            }
        }
    }

    private Sender SenderOf(in HeardMessage message) =>
        message.Sop != SopKind.Sop ? message.FromSourceOrPlug ? Sender.CablePlug : Sender.EitherPort
        : context.Role.IsPartners(message.View.Header, message.HeaderKnown) ? Sender.Partner : context.Role.IsCertain ? Sender.Port : Sender.UnsurePort;

    private Verdict? Settle(ContentFault fault)
    {
        Editions open = context.Facts.Editions;
        Editions read = fault.MayBeNewer && !context.Facts.VersionIsRead ? fault.Read & ~Editions.R32 : fault.Read;
        return (open & fault.WrongUnder) == 0 ? null
            : (open & ~(fault.WrongUnder & read)) == 0 ? Verdict.Fails : Verdict.CannotTell;
    }
}
