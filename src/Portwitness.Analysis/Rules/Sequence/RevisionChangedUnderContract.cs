using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A port speaks another revision than before while a contract is in force.</summary>
internal sealed class RevisionChangedUnderContract : SequenceRule, IHearsBegan
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "revision-changed-under-contract",
        Severity = Severity.Violation,
        Title = "The revision in the headers changes while a contract is in force",
        Clause = "R3.2v1.1 6.2.1.1.5",
        Why = "Partners agree on a revision with the first list and request, and keep it until a detach or Hard Reset. Retries, "
            + "timers and messages depend on it; a port that changes it is misunderstood.",
        Evidence = "Two messages of one port with MessageIDs in a row, neither of them GoodCRC.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A, raw source 6807, send sink Get_Status]",
            "After a contract in R3.x the source sends Get_Sink_Cap in R2.0."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        // After a missed attach counters begin at 0, and the revision may be another.
        if (!conversation.HasContract || delivery.Sop != SopKind.Sop || delivery.Continuity != Continuity.Continuous
            || delivery.RevisionBefore < 0 || delivery.RevisionBefore == delivery.Header.RevisionCode
            || delivery.Header.MessageId == 0 || delivery.Kind == MessageKind.SoftReset || !conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{delivery.Kind} says {Name(delivery.Header.RevisionCode)}; the message before said {Name(delivery.RevisionBefore)}.")
            {
                Expected = "the revision of the contract, until a detach or Hard Reset",
                Observed = $"{Name(delivery.RevisionBefore)}, then {Name(delivery.Header.RevisionCode)}",
            },
            Party = conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
        });
    }

    private static Phrase Name(int code) => code switch { 0 => "R1.0", 1 => "R2.0", 2 => "R3.x", _ => "an invalid revision" };
}
