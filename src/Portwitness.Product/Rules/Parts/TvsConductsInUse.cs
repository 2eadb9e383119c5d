using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A TVS conducts at a voltage that its node has in use.</summary>
public sealed class TvsConductsInUse : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "tvs-conducts-in-use",
        Severity = Severity.Mismatch,
        Title = "A TVS conducts at a voltage that its node has in use",
        Clause = "common practice, no source; the voltages of a moment are those of R3.2v1.1 Table 7.23 (vSrcNew, vSrcValid)",
        Why = "A clamp that conducts all the time heats up until it fails, as a rule short.",
        Evidence = "\"standoff:\" of a part of kind tvs, its node, and a capture of the port.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "20 V are offered; the TVS stands off 18 V.",
            Members: "parts:\n  - {part: D1, kind: tvs, node: C, standoff: 18V}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part.Part is not { Kind: PartKind.Tvs, Standoff: { } standoff }
            || part.Level.Against(standoff) is not { Highest: { } highest, Moment: { } moment } level || standoff >= moment)
        {
            return;
        }

        // A leakage of some µA for a moment is no harm that a source names.
        bool isSteady = standoff < highest;
        hits.Report(
            this,
            new Hit(
                isSteady ? VerdictBy(level) : Verdict.CannotTell,
                isSteady
                    ? $"{part.Part.Name} stands off {standoff}; its node has {highest}: {level.From}."
                    : Phrase.Of($"{part.Part.Name} stands off {standoff}; its node may go to {moment} for a moment: {level.From}."))
            {
                Expected = $"a stand-off of at least {moment}", Observed = $"{standoff}",
                NextStep = isSteady ? NextStep(part, level) : $"Look up the leakage of {part.Part.Name} at {moment} in its data sheet.",
            },
            PlaceOf(part));
    }
}
