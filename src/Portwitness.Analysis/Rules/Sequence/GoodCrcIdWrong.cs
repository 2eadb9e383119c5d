using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A GoodCRC carries another MessageID than the message that it acknowledges.</summary>
internal sealed class GoodCrcIdWrong : SequenceRule, IHearsMisacknowledged
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "goodcrc-id-wrong",
        Severity = Severity.Caution,
        Title = "A GoodCRC carries another MessageID than the message before it",
        Clause = "R3.2v1.1 6.3.1 (from memory), 6.7.1",
        Why = "The sender does not take it for an acknowledgement: it sends again, up to three times, and then resets the "
            + "conversation. Charging stops for a moment.",
        Evidence = "Times good enough to show that no other message had room before the GoodCRC. The clause is from memory, so that this is never "
            + "more than a caution.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A, send sink Get_Status with wrong-goodcrc]",
            "Get_Status has MessageID 1; the GoodCRC right behind it has 5, and the sink sends again."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnMisacknowledged(in Delivery delivery, int messageId, long timeUs, ConversationState conversation)
    {
        Party party = conversation.Other(delivery);
        if (!conversation.Wants(this, party))
        {
            return;
        }

        int id = delivery.Header.MessageId;
        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.CannotTell, $"{delivery.Kind} has MessageID {id}; the GoodCRC right behind it has {messageId}.")
            {
                Expected = $"GoodCRC with MessageID {id}",
                Observed = $"GoodCRC with MessageID {messageId}",
                NextStep = "Look at what the sender does next: if it sends the same message again, it did not hear a valid GoodCRC either.",
            },
            Party = party,
            TimeUs = timeUs,
            MessageIndex = conversation.Index,
            Settle = _ => Verdict.CannotTell,
            ShowsItself = true,
        });
    }
}
