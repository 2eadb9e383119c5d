using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Claims;

namespace Portwitness.Product.Rules.Labels;

/// <summary>More power is claimed than the label prints.</summary>
public sealed class ClaimedPowerBeyondLabel() : BeyondLabelRule(ClaimKind.Power)
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "claimed-power-beyond-label",
        Severity = Severity.Mismatch,
        Title = "More power is claimed than the label prints",
        Clause = "printed label",
        Why = "The label is what was tested; what a page adds to it nobody has to deliver.",
        Evidence = "\"watts:\" of a claim, with \"port:\" for one of them, and the label.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "The label prints 45 W; 65 W are claimed.",
            Members: "label: \"USB-C: 45W Max\"\nclaims: [{text: 65 W fast charge, kind: power, watts: 65, port: C}]"),
        Category = RuleCategory.Label,
    };
}
