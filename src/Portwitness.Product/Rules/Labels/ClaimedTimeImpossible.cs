using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Claims;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A claimed time is shorter, or longer, than energy and power allow.</summary>
public sealed class ClaimedTimeImpossible() : BeyondLabelRule(ClaimKind.Time)
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "claimed-time-impossible",
        Severity = Severity.Mismatch,
        Title = "A claimed time is shorter, or longer, than energy and power allow",
        Clause = "common practice, no source: energy over power, without any loss; what losses add is a caution",
        Why = "A pack cannot be filled faster than its input carries energy in, nor run a load for longer than its cells have energy.",
        Evidence = "\"time:\" of a claim with \"input:\" or the printed input, or with \"output:\"; the cells under \"battery:\", or the printed energy.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "48.6 Wh at 30 W take 97 min.",
            Members: "claims: [{text: full in one hour, kind: time, time: 60min, input: 30W}]\nbattery: {cells: {series: 3, capacity_mah: 4500, nominal_v: 3.6}}"),
        Category = RuleCategory.Label,
    };
}
