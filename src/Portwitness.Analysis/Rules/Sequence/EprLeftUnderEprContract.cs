using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Contracts;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>EPR mode is left while the contract is for an EPR object.</summary>
internal sealed class EprLeftUnderEprContract : SequenceRule, IHearsBegan
{
    private const int FirstEprPosition = 8;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-left-under-epr-contract",
        Severity = Severity.Caution,
        Title = "EPR mode is left while the contract is for an EPR object",
        Clause = "R3.2v1.1 6.4.10 (from memory)",
        Why = "EPR mode is left only from 20 V or less. A source that says Exit at 28 V or more leaves its voltage on a device "
            + "that now counts on 20 V at most, or takes all power away.",
        Evidence = "EPR_Mode Exit, the contract before it, and nothing missing since. The clause is from memory, so that this is never "
            + "more than a caution.",
        Editions = Editions.R31 | Editions.R32,
        Example = new ScriptExample(
            """
            edition: R3.2
            cable: EPR captive
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - attach
              - advertise
              - contract 4 at 5A epr
              - enter-epr at 140W
              - contract 8 at 5A epr
              - keep-alive
              - exit-epr source
              - advertise
              - contract 1 at 3A
            """,
            "The source says Exit under a contract at 28 V."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public bool Concerns(MessageKind kind) => kind == MessageKind.EPRMode;

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        if (delivery.Sop != SopKind.Sop || delivery.Detail != (int)EprModeAction.Exit
            || conversation.GrantedRequest is not { } request || conversation.LastGranted is not { Position: >= FirstEprPosition } granted
            || conversation.Contracts.Open is { Outcome: ContractOutcome.Accepted }
            || !conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.CannotTell, $"EPR_Mode Exit came under a contract for object {granted.Position}, {granted}.")
            {
                Position = granted.Position,
                Expected = "a contract for an SPR object (position 1 to 7) before Exit",
                Observed = $"Exit under {granted}",
                NextStep = "Measure VBUS from Exit to the next contract: it shows whether more than 20 V stays on.",
            },
            Party = conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            IsProven = delivery.GoesOnForCertain && conversation.MissesNothingSince(request.TimeUs),
            Awaits = (SopKind.Sop, !delivery.FromSourceOrPlug),
            Settle = _ => Verdict.CannotTell,
            IsSilentWhenOpen = true,
        });
    }
}
