using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>Data_Reset or VCONN_Swap was accepted and never completed.</summary>
internal sealed class CompletionMissing : SequenceRule, IHearsNotCompleted
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "completion-missing",
        Severity = Severity.Caution,
        Title = "Data_Reset or VCONN_Swap was accepted and not completed",
        Clause = "R3.2v1.1 Tables 6.5 and 6.68 (tDataReset), 6.3.14; who completes it from memory",
        Why = "Whoever waits for Data_Reset_Complete, or for PS_RDY of the new VCONN source, gives up and disconnects or resets: charging "
            + "and data begin again from nothing.",
        Evidence = "Accept and its GoodCRC, and then messages of both ports with MessageIDs that show that none was missed. That the DFP "
            + "completes Data_Reset, and the new VCONN source a VCONN_Swap, is from memory, so that this is never more than a caution.",
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - send sink Data_Reset
              - accept
              - pause 400ms
              - repeat 2: [send source Get_Sink_Cap, send sink Sink_Capabilities 0x0001912C, send sink DR_Swap, reject]
            """,
            "The source is DFP and accepts Data_Reset; Data_Reset_Complete never comes."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnNotCompleted(Exchange exchange, in Delivery next, ConversationState conversation)
    {
        Party party = PartyOf(exchange, conversation);
        if (!conversation.Wants(this, party))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(
                Verdict.CannotTell,
                $"{exchange.Row.Name} was accepted, and {exchange.Completion.Name} did not follow; {next.Kind} did.")
            {
                Expected = AwaitedText.Owed(exchange),
                Observed = $"{next.Kind} instead",
                NextStep = "Capture it once more with another device, and see whether it is completed there.",
            },
            Party = party,
            TimeUs = exchange.Answer.FirstUs,
            MessageIndex = exchange.Answer.Index,
            IsProven = next.GoesOnForCertain,
            Awaits = (SopKind.Sop, !next.FromSourceOrPlug),
            Settle = _ => Verdict.CannotTell,
            IsSilentWhenOpen = true,
        });
    }

    // Headers say who is DFP. Which port becomes the VCONN source they do not say.
    private static Party PartyOf(Exchange exchange, ConversationState conversation) =>
        exchange.Row.Request != MessageKind.DataReset ? Party.Unsure
        : exchange.Answer.Header.DownstreamFacing ? conversation.PartyOf(exchange.Answer)
        : conversation.Other(exchange.Answer);
}
