using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>Hard Resets follow each other without a contract in between.</summary>
internal sealed class ResetLoop : SequenceRule, IHearsHardReset
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "reset-loop",
        Severity = Severity.Caution,
        Title = "Hard Resets follow each other without a contract in between",
        Clause = "R3.2v1.1 Table 6.70 (nHardResetCount), 6.8.3",
        Why = "A device on this port is switched off and on again and does not charge. After two Hard Resets without an answer a "
            + "port has to stop; which of the two sent them, the signal does not say.",
        Evidence = "Who sends a Hard Reset is not in the signal: this rule can never say more than that it cannot tell.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, {repeat 3: [advertise, hard-reset]}]",
            "Three Hard Resets, and no contract."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnHardReset(long timeUs, ConversationState conversation)
    {
        if (conversation.ResetsInARow > MessageLimits.HardResetCount)
        {
            conversation.Report(
                this,
                new Hit(Verdict.CannotTell, $"This is Hard Reset {conversation.ResetsInARow} since the attach or the last contract.")
                {
                    Expected = $"at most {MessageLimits.HardResetCount} without an answer",
                    Observed = "one Hard Reset after the other",
                    NextStep = "Capture the port with another sink and cable; if it happens there too, the port is the cause.",
                },
                timeUs, conversation.Index);
        }
    }
}
