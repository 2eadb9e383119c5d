using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A Soft_Reset, or the Accept of one, does not carry MessageID 0.</summary>
internal sealed class MessageIdNotReset : SequenceRule, IHearsBegan
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "message-id-not-reset",
        Severity = Severity.Violation,
        Title = "A MessageID does not begin at 0 with Soft_Reset",
        Clause = "R3.2v1.1 6.7.1",
        Why = "Soft_Reset is there to bring counters together that have come apart. A port that counts on takes the partner's next "
            + "message for a retry and throws it away, and only a Hard Reset, which takes VBUS away, helps.",
        Evidence = "Soft_Reset itself; for its Accept also the GoodCRC of Soft_Reset, and the next message of whoever sent it, which shows that "
            + "nothing was said in between.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A, raw source AD07, soft-reset source, advertise, contract 1 at 3A]",
            "Soft_Reset has MessageID 3."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public bool Concerns(MessageKind kind) => kind == MessageKind.SoftReset || kind == MessageKind.Accept;

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        if (delivery.Header.MessageId == 0)
        {
            return;
        }

        if (delivery.Kind == MessageKind.SoftReset)
        {
            Suspect(delivery, conversation, "Soft_Reset", showsItself: true);
        }
        else if (delivery is { Sop: SopKind.Sop, Continuity: Continuity.Fresh } && delivery.Kind == MessageKind.Accept
            && conversation is { HasSpoken: true, Last.IsAcknowledged: true } && conversation.Last.Kind == MessageKind.SoftReset
            && conversation.Last.FromSourceOrPlug != delivery.FromSourceOrPlug)
        {
            Suspect(delivery, conversation, "the Accept of Soft_Reset", showsItself: false);
        }
    }

    private void Suspect(in Delivery delivery, ConversationState conversation, Phrase what, bool showsItself)
    {
        if (!conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"MessageID {delivery.Header.MessageId} in {what}: counting begins at 0 with Soft_Reset.")
            {
                Expected = $"MessageID 0 in {what}",
                Observed = $"MessageID {delivery.Header.MessageId}",
            },
            Party = conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            ShowsItself = showsItself,
            Awaits = showsItself ? null : (SopKind.Sop, !delivery.FromSourceOrPlug),
        });
    }
}
