using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Claims;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A device is claimed to be filled more often than the cells have energy.</summary>
public sealed class ClaimedFillsImpossible() : BeyondLabelRule(ClaimKind.Fills)
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "claimed-fills-impossible",
        Severity = Severity.Mismatch,
        Title = "A device is claimed to be filled more often than the cells have energy",
        Clause = "common practice, no source: number times the device's energy against that of the cells; what losses take is a caution",
        Why = "Capacities of cells of different voltages, divided, promise a third more fills than there is energy for.",
        Evidence = "\"fills:\" and \"device_wh:\" of a claim; the cells under \"battery:\", or the printed energy.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "Four times 19.35 Wh are 77.4 Wh; the cells hold 48.6 Wh.",
            Members: "claims: [{text: charges a handset four times, kind: fills, fills: 4, device_wh: 19.35}]\nbattery: {cells: {series: 3, capacity_mah: 4500, nominal_v: 3.6}}"),
        Category = RuleCategory.Label,
    };
}
