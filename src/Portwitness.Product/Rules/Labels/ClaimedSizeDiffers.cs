using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Claims;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The claimed size is not what a ruler shows.</summary>
public sealed class ClaimedSizeDiffers() : BeyondLabelRule(ClaimKind.Size)
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "claimed-size-differs",
        Severity = Severity.Caution,
        Title = "The claimed size is not what a ruler shows",
        Clause = "common practice, no source: each side within one millimetre or two per cent",
        Why = "What has to fit into a pocket, a bag or a rack is bought by its size, and a larger housing may hold fewer cells than it seems.",
        Evidence = "\"size_mm:\" of a claim, and \"size_mm:\" under \"battery:\".",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "148 mm were measured, 140 mm are claimed.",
            Members: "claims: [{text: 140 x 62 x 26 mm, kind: size, size_mm: [140, 62, 26]}]\nbattery: {size_mm: [148, 62, 26]}"),
        Category = RuleCategory.Label,
    };
}
