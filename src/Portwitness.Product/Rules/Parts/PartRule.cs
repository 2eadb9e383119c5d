using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Offers;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A rule about parts on the VBUS side.</summary>
public abstract class PartRule : Rule
{
    /// <summary>Looks at a part and what its node is offered, and reports what breaks this rule.</summary>
    public abstract void Check(PartStress part, IProductHitSink hits);

    /// <summary>What is offered, or what cells have, is so; what is printed is a promise.</summary>
    private protected static Verdict VerdictBy(NodeLevel level) => level.Basis == NodeBasis.Printed ? Verdict.CannotTell : Verdict.Fails;

    private protected static Phrase? NextStep(PartStress part, NodeLevel level) =>
        level.Basis == NodeBasis.Printed ? NextSteps.Capture(part.Part.Node, [part.Part.Node]) : null;

    /// <summary>A current that was reckoned with a default proves nothing.</summary>
    private protected static Verdict CurrentVerdictBy(NodeLevel level) => level.CurrentIsReckoned ? Verdict.CannotTell : VerdictBy(level);

    private protected static Phrase? CurrentNextStep(PartStress part, NodeLevel level) =>
        level.CurrentIsReckoned ? Phrase.Of($"Measure the current through {part.Part.Name} at full output with nearly empty cells.") : NextStep(part, level);

    /// <summary>"178 %": what is used, of what is rated.</summary>
    private protected static Phrase Share(long used, long rated) => Phrase.Of($"{new Quantity((long)Math.Round(used * 1_000_000m / rated), QuantityUnit.PartsPerMillion)} of it");

    private protected static ProductPlace PlaceOf(PartStress part) => new(part.Part.Node, []);
}
