using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A TVS lets through more than a part beside it stands.</summary>
public sealed class TvsClampsTooLate : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "tvs-clamps-too-late",
        Severity = Severity.Caution,
        Title = "A TVS lets through more than a part beside it stands",
        Clause = "common practice, no source",
        Why = "What a clamp lets through at its rated pulse reaches the parts beside it. At a smaller pulse it is less, so that this is a question and not a fault.",
        Evidence = "\"clamp:\" of a part of kind tvs, and \"volts:\" of the parts on the same node.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "The TVS clamps at 38.9 V; the switch beside it is rated for 30 V.",
            Members: "parts:\n  - {part: D1, kind: tvs, node: C, clamp: 38.9V}\n  - {part: Q2, node: C, volts: 30V}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part.Part is not { Kind: PartKind.Tvs, Clamp: { } clamp }
            || part.Beside.Where(static other => other.Volts is not null).MinBy(static other => other.Volts) is not { Volts: { } rated } weakest || rated >= clamp)
        {
            return;
        }

        hits.Report(
            this,
            new Hit(Verdict.CannotTell, $"{part.Part.Name} clamps at {clamp} at its rated pulse; {weakest.Name} beside it is rated for {rated}.")
            {
                Expected = $"at most {rated}", Observed = $"{clamp}",
                NextStep = $"Reckon the clamp of {part.Part.Name} at the pulse that is to be expected, from its breakdown voltage and data sheet.",
            },
            PlaceOf(part));
    }
}
