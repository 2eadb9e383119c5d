using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A new message carries the MessageID of the one before.</summary>
internal sealed class MessageIdNotAdvanced : SequenceRule, IHearsBegan
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "message-id-not-advanced",
        Severity = Severity.Violation,
        Title = "A new message carries the MessageID of the one before, which was acknowledged",
        Clause = "R3.2v1.1 6.7.1, Table 6.70",
        Why = "A receiver takes a message with the MessageID of the last one for a retry: it acknowledges it and throws it away. A "
            + "new list or an answer is then never read, and the conversation hangs until a reset.",
        Evidence = "GoodCRCs, and both partners' MessageIDs going on around it: otherwise a reset may have been missed.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, request 2 at 3A, accept with same-id, ready, send sink Get_Status]",
            "Accept carries the MessageID of Source_Capabilities."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        if (delivery.Continuity != Continuity.Same || !conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{delivery.Kind} is no retry, but carries the MessageID of the acknowledged message before it.")
            {
                Expected = "a MessageID one higher, or 0 after 7",
                Observed = $"the same MessageID again, in {delivery.Kind}",
            },
            Party = conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            IsProven = delivery.Header.MessageId != 0,
            Awaits = (delivery.Sop, !delivery.FromSourceOrPlug),
        });
    }
}
