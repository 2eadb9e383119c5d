using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A structured VDM is sent on SOP before the first contract.</summary>
internal sealed class VdmBeforeContract : SequenceRule, IHearsBegan
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vdm-before-contract",
        Severity = Severity.Caution,
        Title = "A structured VDM is sent before the first contract",
        Clause = "R3.2v1.1 6.4.4 (from memory)",
        Why = "Before the first contract a device waits for the source's list alone. Another message makes some devices reset, and power "
            + "comes later than it could.",
        Evidence = "The attach or Hard Reset, and nothing missing since. The clause is from memory, so that this is never more than a "
            + "caution. What a source asks the cable on SOP' is no part of it.",
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps: [attach, send source Vendor_Defined 0xFF00A001, send sink Vendor_Defined 0xFF00A081, advertise, contract 2 at 3A]
            """,
            "The source asks the device for its identity before it has sent a list."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public bool Concerns(MessageKind kind) => kind == MessageKind.VendorDefined;

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        bool isCommand = delivery is { Sop: SopKind.Sop, IsWhole: true, VdmType: VdmCommandType.Request } && delivery.Detail != Delivery.NoDetail;
        if (!isCommand || conversation.RolesWereSwapped
            || conversation.Contracts is not { Granted: null, Open: null, Unlisted: 0 }
            || !conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.CannotTell, "A structured VDM came on SOP, and since the attach or reset there was no contract.")
            {
                Expected = "structured VDMs on SOP under a contract only",
                Observed = "a structured VDM before the first contract",
                NextStep = "Capture the port with another device: whether it waits for the contract there shows whether it is the port's habit.",
            },
            Party = conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            IsProven = conversation.MissesNothingSince(conversation.RestartedUs)
                && (delivery.Continuity == Continuity.Continuous || delivery.Header.MessageId == 0),
            Settle = _ => Verdict.CannotTell,
            IsSilentWhenOpen = true,
        });
    }
}
