using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A list holds more objects than the standard allows.</summary>
public sealed class TooManyObjects : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "too-many-objects",
        Severity = Severity.Violation,
        Title = "The list holds more objects than a list can have",
        Clause = "R3.2v1.1 6.4.1, 6.5.15.1",
        Why = "A device reads seven objects, or eleven in EPR. What comes behind cannot be asked for.",
        Evidence = "The whole list. Of EPR lists of twelve or thirteen objects R3.2v1.1 contradicts itself.",
        Example = new MessageExample(
            "A1712C9101002CD102002CB10400454106003C32DCC03C3240C16432A4C16432A4C1",
            "Eight objects stand in a list of seven."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        int most = list.IsEpr ? MessageLimits.MaxEprObjects : MessageLimits.MaxSprObjects;
        if (list.Objects.Length <= most)
        {
            return;
        }

        // R3.2v1.1 codes object positions up to 13 in a request, but describes lists of 11 at most.
        bool disputed = list.IsEpr && list.Objects.Length <= MessageLimits.LastCodableObjectPosition;
        hits.Report(this, new Hit(
            disputed ? Verdict.CannotTell : Verdict.Fails,
            Phrase.Of($"{list.Message} holds {list.Objects.Length} objects")
            + (disputed ? "; R3.2v1.1 describes eleven, but its requests can name thirteen." : "."))
        {
            Position = most + 1,
            Expected = $"at most {most}",
            Observed = $"{list.Objects.Length}",
            NextStep = disputed ? "Compare with an edition newer than R3.2v1.1." : null,
        });
    }
}
