using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A Hard Reset was seen.</summary>
internal sealed class HardResetSeen : SequenceRule, IHearsHardReset
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "hard-reset-seen",
        Severity = Severity.Note,
        Title = "A Hard Reset was seen",
        Clause = "R3.2v1.1 6.8, 5.6.4",
        Why = "VBUS is taken away and comes back: a device stops charging for a second, and one without a battery restarts. Either "
            + "side may send it, and nothing in it says which; look at what came before.",
        Evidence = "The signal itself; who sent it is not in it.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A, pause 1s, hard-reset, advertise, contract 2 at 3A]",
            "A Hard Reset a second after the contract."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnHardReset(long timeUs, ConversationState conversation) => conversation.Report(
        this,
        new Hit(Verdict.CannotTell, conversation.HasSpoken ? Phrase.Of($"It followed {conversation.Last.Kind}.") : "Nothing was said before it.")
        {
            IsNote = true, Observed = "Hard Reset",
        },
        timeUs, conversation.Index);
}
