using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>The answer to a structured VDM is of a later version than the question.</summary>
internal sealed class VdmVersionInconsistent : SequenceRule, IHearsAnswered
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vdm-version-inconsistent",
        Severity = Severity.Caution,
        Title = "A structured VDM is answered in a later version than it was asked in",
        Clause = "R3.2v1.1 6.4.4, Table 6.29; that an answer is of no later version is from memory",
        Why = "Whoever asks in an older version reads the answer as that version lays it out: a cable's 50 V or EPR is then missed or taken for "
            + "something else.",
        Evidence = "Question and answer with their VDM headers, no message missing between them. That an answer may not be of a later version is "
            + "from memory, so that this is never more than a caution.",
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - send sink Vendor_Defined 0xFF008001
              - send source Vendor_Defined 0xFF00A081
            """,
            "Discover Identity of version 1.0 is answered in version 2.0."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnAnswered(Exchange exchange, in Delivery answer, ConversationState conversation)
    {
        (VdmHeader asked, VdmHeader answered) = (exchange.Request.Vdm, answer.Vdm);
        if (answer.Kind != MessageKind.VendorDefined || answer.Detail == Delivery.NoDetail || exchange.Request.Detail != answer.Detail
            || answered.VersionOrder <= asked.VersionOrder || !conversation.Wants(this, conversation.PartyOf(answer)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.CannotTell, $"A structured VDM of version {asked.VersionText} was answered in version {answered.VersionText}.")
            {
                Expected = $"version {asked.VersionText} or earlier",
                Observed = $"version {answered.VersionText}",
                NextStep = "Ask in the later version, and see whether the answer is the same.",
            },
            Party = conversation.PartyOf(answer),
            TimeUs = answer.FirstUs,
            FromUs = exchange.Request.FirstUs,
            MessageIndex = answer.Index,
            IsProven = answer.Continuity == Continuity.Continuous,
            Settle = _ => Verdict.CannotTell,
            IsSilentWhenOpen = true,
        });
    }
}
