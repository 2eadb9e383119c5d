using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A message came that nothing asked for, or that its sender does not send.</summary>
internal sealed class UnexpectedMessage : SequenceRule, IHearsBegan, IHearsClosed
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "unexpected-message",
        Severity = Severity.Violation,
        Title = "A message came that has no place there",
        Clause = "R3.2v1.1 6.4.2, 6.4.9, 6.5.15.1, Tables 6.5, 6.6, 6.50, 6.53 and 6.67",
        Why = "An answer to nothing, a second answer, or a list of the wrong mode makes the partner reset: charging stops and "
            + "begins again.",
        Evidence = "Both partners' MessageIDs going on around it: otherwise the request that it answers may have been missed.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A, pause 5ms, accept, send sink Get_Status]",
            "A second Accept, after PS_RDY."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        if (delivery.Sop != SopKind.Sop || !delivery.GoesOnForCertain || (delivery.FromSourceOrPlug && IsOnlySinks(delivery)))
        {
            return;
        }

        Exchange theirs = conversation.Exchanges[delivery.FromSourceOrPlug ? 0 : 1];
        (SopKind, bool) partner = (SopKind.Sop, !delivery.FromSourceOrPlug);
        if (AnswersNothing(delivery, theirs, conversation))
        {
            Suspect(delivery, conversation, "nothing had asked for it", partner);
        }
        else if (theirs is { IsOpen: true, IsInSequel: false } && AnswerTable.IsOnlyAnswer(delivery)
            && !theirs.Row.IsAnsweredBy(theirs.Request, delivery) && !AnswerRow.IsRefusal(delivery))
        {
            Suspect(delivery, conversation, $"it does not answer {theirs.Row.Name}, which was asked", partner);
        }
        else if (theirs is { IsOpen: true, IsInSequel: true } && IsVerdict(delivery)
            && conversation.HasSpoken && conversation.Last.FromSourceOrPlug == delivery.FromSourceOrPlug)
        {
            Suspect(delivery, conversation, $"{theirs.Row.Name} was answered before, with {theirs.Answer.Kind}", partner);
        }
        else if (conversation.ModeIsKnown)
        {
            InMode(delivery, theirs, conversation, partner);
        }
    }

    /// <inheritdoc/>
    public void OnClosed(in Delivery delivery, Closing closing, long timeUs, ConversationState conversation)
    {
        // A GoodCRC of its own role shows that the header is wrong and not the sender: power-role-bit-wrong says that.
        if (delivery is { Sop: SopKind.Sop, FromSourceOrPlug: true, HasGoodCrcOfItsOwnRole: false } && IsOnlySinks(delivery))
        {
            Suspect(delivery, conversation, "it is a sink's message, and its header says that a source sent it", null, showsItself: true);
        }
    }

    /// <summary>
    /// Whether only a sink sends a message (R3.2v1.1, Tables 6.5, 6.6, 6.50 and 6.67, "sent by"); a source that can also be a sink
    /// still sends it in the role of a sink.
    /// </summary>
    internal static bool IsOnlySinks(in Delivery delivery) =>
        delivery.Kind == MessageKind.Request || delivery.Kind == MessageKind.EPRRequest || delivery.Kind == MessageKind.GetPPSStatus
        || (delivery.Kind == MessageKind.ExtendedControl && delivery.Detail == (int)ExtendedControlType.EprKeepAlive)
        || (delivery.Kind == MessageKind.EPRMode && delivery.Detail == (int)EprModeAction.Enter);

    private static bool IsVerdict(in Delivery delivery) =>
        delivery.Kind == MessageKind.Accept || delivery.Kind == MessageKind.Reject || delivery.Kind == MessageKind.Wait;

    // Its sender spoke last, and what it said then is not what this goes on from.
    private static bool AnswersNothing(in Delivery delivery, Exchange theirs, ConversationState conversation)
    {
        Exchange own = conversation.Exchanges[delivery.FromSourceOrPlug ? 1 : 0];
        if (theirs.IsOpen || !conversation.IsAlive[delivery.FromSourceOrPlug ? 0 : 1] || !AnswerTable.IsOnlyAnswer(delivery) || !conversation.HasSpoken
            || conversation.Last.FromSourceOrPlug != delivery.FromSourceOrPlug || own is { IsOpen: true, IsInSequel: true })
        {
            return false;
        }

        ref readonly Delivery last = ref conversation.Last;
        bool goesOn = (delivery.Kind == MessageKind.PSRDY && (last.Kind == MessageKind.Accept || last.Kind == MessageKind.GotoMin))
            || (delivery.Kind == MessageKind.EPRMode && last.Kind == MessageKind.EPRMode);
        return !goesOn && !last.IsLaterChunk;
    }

    private void InMode(
        in Delivery delivery, Exchange theirs, ConversationState conversation, (SopKind, bool) partner)
    {
        bool isAsked = theirs.IsOpen && theirs.Row.Request == MessageKind.GetSourceCap;
        if (conversation.IsEpr && delivery.Kind == MessageKind.SourceCapabilities && !isAsked)
        {
            Suspect(delivery, conversation, "in EPR mode it only answers Get_Source_Cap", partner);
        }
        else if (conversation.IsEpr && delivery.Kind == MessageKind.Request)
        {
            Suspect(delivery, conversation, "in EPR mode power is asked for with EPR_Request", partner);
        }
        else if (!conversation.IsEpr && delivery.Kind == MessageKind.EPRSourceCapabilities
            && delivery is { FromSourceOrPlug: true, IsLaterChunk: false } && !IsEprListUnderWay(theirs, conversation))
        {
            Suspect(delivery, conversation, "in SPR mode it only answers EPR_Get_Source_Cap", partner);
        }
        else if (!conversation.IsEpr && delivery.Kind == MessageKind.EPRRequest)
        {
            Suspect(delivery, conversation, "in SPR mode power is asked for with Request", partner);
        }
    }

    // It was asked for, or it is sent once more from its first chunk.
    private static bool IsEprListUnderWay(Exchange theirs, ConversationState conversation) =>
        (theirs.IsOpen && theirs.Request.Detail == (int)ExtendedControlType.EprGetSourceCap && theirs.Row.Request == MessageKind.ExtendedControl)
        || (conversation.HasSpoken && conversation.Last.Kind == MessageKind.EPRSourceCapabilities);

    private void Suspect(
        in Delivery delivery, ConversationState conversation, Phrase why, (SopKind, bool)? awaits, bool showsItself = false)
    {
        if (!conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{delivery.Kind} has no place here: {why}.")
            {
                Expected = "no such message here", Observed = $"{delivery.Kind}: {why}",
            },
            Party = conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            Awaits = awaits,
            ShowsItself = showsItself,
        });
    }
}
