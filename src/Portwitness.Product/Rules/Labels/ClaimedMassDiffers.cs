using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Claims;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The claimed mass is not what a scale shows.</summary>
public sealed class ClaimedMassDiffers() : BeyondLabelRule(ClaimKind.Mass)
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "claimed-mass-differs",
        Severity = Severity.Caution,
        Title = "The claimed mass is not what a scale shows",
        Clause = "common practice, no source: within five per cent",
        Why = "A product that weighs less than claimed may have fewer cells in it.",
        Evidence = "\"mass_g:\" of a claim, and \"mass_g:\" under \"battery:\".",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "348 g were weighed, 420 g are claimed.",
            Members: "claims: [{text: 420 g, kind: mass, mass_g: 420}]\nbattery: {mass_g: 348}"),
        Category = RuleCategory.Label,
    };
}
