using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>The source enters EPR mode although the sink's request does not say that it is EPR capable.</summary>
internal sealed class EprEnteredWithEprBitClear : SequenceRule, IHearsBegan
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-entered-with-epr-bit-clear",
        Severity = Severity.Violation,
        Title = "EPR mode is entered although the request's EPR Capable bit is clear",
        Clause = "R3.2v1.1 6.4.10.1, Tables 6.23 to 6.26 and 6.50",
        Why = "The bit is the sink's word that it withstands 28 to 48 V. A source has to answer EPR_Mode Enter with Enter Failed, reason 3, "
            + "while it is clear; one that goes on puts a device at risk that never agreed to more than 20 V.",
        Evidence = "The request of the contract in force with all its bits, Enter Succeeded, and nothing missing in between.",
        Editions = Editions.R31 | Editions.R32,
        Example = new ScriptExample(
            """
            edition: R3.2
            cable: EPR captive
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps: [attach, advertise, contract 4 at 5A, enter-epr at 140W, contract 8 at 5A epr, keep-alive]
            """,
            "The request for 20 V has the bit clear; the source enters EPR mode all the same."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public bool Concerns(MessageKind kind) => kind == MessageKind.EPRMode;

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        // A later request that was refused may carry the bit, or not: both have to lack it.
        if (delivery is not { Sop: SopKind.Sop, FromSourceOrPlug: true }
            || delivery.Detail != (int)EprModeAction.EnterSucceeded
            || conversation.GrantedRequest is not { Word.EprCapable: false } granted || conversation.Requested is not { Word.EprCapable: false }
            || !conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, "The sink's request has the EPR Capable bit clear; the source answers EPR_Mode Enter with Enter Succeeded.")
            {
                Expected = "Enter Failed, reason 3 (EPR Capable bit not set in the request)",
                Observed = "Enter Succeeded",
            },
            Party = conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            IsProven = delivery.GoesOnForCertain && conversation.MissesNothingSince(granted.TimeUs),
            Awaits = (SopKind.Sop, false),
            Settle = evidence => evidence.SettleEpr(Editions.R31 | Editions.R32),
        });
    }
}
