using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A message that only one role sends says the other role.</summary>
internal sealed class PowerRoleBitWrong : SequenceRule, IHearsClosed
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "power-role-bit-wrong",
        Severity = Severity.Violation,
        Title = "A message says the wrong power role",
        Clause = "R3.2v1.1 6.2.1.1.4, Tables 6.1, 6.5, 6.6, 6.50 and 6.67",
        Why = "Receivers do not check the bit, but instruments and hubs go by it: they take a source's list for a sink's, and what the "
            + "port offers is missed.",
        Evidence = "The message and its GoodCRC, which says the same role: so the bit of one of the two is wrong, and only one role sends "
            + "such a message.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, raw source A110 2C91 0108, advertise, contract 1 at 3A]",
            "Source_Capabilities says Sink, and so does the GoodCRC of the sink."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnClosed(in Delivery delivery, Closing closing, long timeUs, ConversationState conversation)
    {
        if (delivery is not { Sop: SopKind.Sop, HasGoodCrcOfItsOwnRole: true } || !IsOfTheOtherRole(delivery))
        {
            return;
        }

        Party party = conversation.Other(delivery);
        if (!conversation.Wants(this, party))
        {
            return;
        }

        (Phrase says, Phrase sends) = delivery.FromSourceOrPlug ? ("Source", "sink") : ("Sink", "source");
        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{delivery.Kind} says {says}, and its GoodCRC says {says}, too; a {sends} sends this message.")
            {
                Expected = $"{(delivery.FromSourceOrPlug ? "Sink" : "Source")} in the header of {delivery.Kind}",
                Observed = says,
            },
            Party = party,
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            ShowsItself = true,
        });
    }

    // A sink that can also be a source answers Get_Source_Cap with a list of its own; its GoodCRC then says Source.
    private static bool IsOfTheOtherRole(in Delivery delivery) => delivery.FromSourceOrPlug
        ? UnexpectedMessage.IsOnlySinks(delivery)
        : delivery.Kind == MessageKind.SourceCapabilities || delivery.Kind == MessageKind.SourceInfo || delivery.Kind == MessageKind.PPSStatus
            || (delivery.Kind == MessageKind.EPRSourceCapabilities && delivery.Extended is { RequestChunk: false })
            || (delivery.Kind == MessageKind.ExtendedControl && delivery.Detail == (int)ExtendedControlType.EprKeepAliveAck)
            || (delivery.Kind == MessageKind.EPRMode
                && delivery.Detail is >= (int)EprModeAction.EnterAcknowledged and <= (int)EprModeAction.EnterFailed);
}
