using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A message was never acknowledged although its receiver was there.</summary>
internal sealed class GoodCrcMissing : SequenceRule, IHearsClosed
{
    // After tReceive of the last attempt, tSoftReset or tHardReset; what is later has other causes.
    private const long ReactionUs = 25_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "goodcrc-missing",
        Severity = Severity.Violation,
        Title = "A message was not acknowledged, however often it was sent",
        Clause = "R3.2v1.1 Tables 6.5, 6.68 and 6.70, 6.7.1",
        Why = "Whoever is not acknowledged gives up and resets the conversation: charging stops for a moment or falls back to 5 V. "
            + "Before a device is there, and towards cables without a marker, nobody has to acknowledge.",
        Evidence = "GoodCRCs of the receiver before, all attempts with a right CRC, and the sender's Soft_Reset or the Hard Reset "
            + "behind them: it shows that the sender heard no GoodCRC either.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A, send sink Get_Status with drop-goodcrc 3, soft-reset sink]",
            "The source takes no notice of three attempts at Get_Status; the sink resets."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnClosed(in Delivery delivery, Closing closing, long timeUs, ConversationState conversation)
    {
        bool isUnheard = !delivery.IsAcknowledged && !delivery.HasGoodCrcOfItsOwnRole && !delivery.AcknowledgementIsGarbled && delivery.AcknowledgementsAreShown
            && delivery.GarbledAttempts == 0 && delivery.Attempts >= delivery.AllowedAttempts;
        if (!isUnheard || delivery.Sop != SopKind.Sop || closing == Closing.Broken || !conversation.Wants(this, conversation.Other(delivery))
            || !conversation.IsAlive[delivery.FromSourceOrPlug ? 0 : 1]
            || (closing == Closing.NextMessage && delivery.Kind == MessageKind.SourceCapabilities))
        {
            return;
        }

        // Where the receiver spoke in between it may have answered: the capture misses the GoodCRC.
        bool reacted = closing is Closing.SoftReset or Closing.HardReset && timeUs - delivery.LastUs <= ReactionUs
            && (!conversation.HasSpoken || conversation.Last.Index <= delivery.Index);
        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{delivery.Kind} was sent {delivery.Attempts} times and never acknowledged; {(reacted ? "its sender then reset the conversation." : "its sender went on.")}")
            {
                Expected = "a GoodCRC to one of the attempts",
                Observed = $"no GoodCRC to {delivery.Kind}",
            },
            Party = conversation.Other(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            IsProven = reacted,
        });
    }
}
