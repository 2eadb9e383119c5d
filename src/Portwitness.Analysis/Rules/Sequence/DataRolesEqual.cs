using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>Both ports say that they are DFP, or both that they are UFP.</summary>
internal sealed class DataRolesEqual : SequenceRule, IHearsBegan
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "data-roles-equal",
        Severity = Severity.Violation,
        Title = "Both ports say the same data role",
        Clause = "R3.2v1.1 6.2.1.1.6, Table 6.1",
        Why = "One port is DFP and the other UFP, and only an accepted DR_Swap changes that. A port that receives its own data role "
            + "goes into error recovery: it disconnects, and charging begins again from nothing.",
        Evidence = "Headers of both ports since the attach or Hard Reset, and nothing missing in between. That a source begins as DFP is from "
            + "memory: a source that never was DFP is a caution.",
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps: [attach, advertise, contract 2 at 3A, raw source 8807, send sink Sink_Capabilities 0x0001912C, send sink DR_Swap, reject]
            """,
            "The source is DFP, and then says UFP, as the sink does, without a DR_Swap."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        bool isDfp = delivery.Header.DownstreamFacing;
        bool? own = conversation.DataRoles.IsDfp(delivery.FromSourceOrPlug);
        if (delivery.Sop != SopKind.Sop || conversation.DataRoles.IsDfp(!delivery.FromSourceOrPlug) != isDfp || own == isDfp)
        {
            return;
        }

        // Whoever spoke in another role before has changed it. Of two that begin in the same one, the source is DFP by right.
        bool isInitial = own is null && conversation.DataRoles.AreInitial && conversation.MissesNothingSince(conversation.RestartedUs);
        Party party = own is not null ? conversation.PartyOf(delivery)
            : !isInitial || conversation.RolesWereSwapped ? Party.Unsure
            : isDfp ? Party.Sink : Party.Source;
        if (!conversation.Wants(this, party))
        {
            return;
        }

        string role = isDfp ? "DFP" : "UFP";
        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{delivery.Kind} says {role}, as the other port does; no DR_Swap was accepted.")
            {
                Expected = "one DFP and one UFP",
                Observed = $"both {role}",
                NextStep = "Capture from the attach on, with an instrument that records every message.",
            },
            Party = party,
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            IsProven = own is not null ? delivery.GoesOnForCertain : isInitial,
            Awaits = (SopKind.Sop, !delivery.FromSourceOrPlug),
            Settle = own is null && party == Party.Source ? _ => Verdict.CannotTell : null,
        });
    }
}
