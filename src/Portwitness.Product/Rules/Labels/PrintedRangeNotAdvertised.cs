using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A printed range is backed by no object.</summary>
public sealed class PrintedRangeNotAdvertised : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-range-not-advertised",
        Severity = Severity.Mismatch,
        Title = "A printed range is backed by no object",
        Clause = "printed label",
        Why = "Devices that charge by PPS or AVS need the range and its current. Where it is printed and not offered, they fall back "
            + "to fixed voltages and charge slowly and warm.",
        Evidence = "A whole list of that port, with PPS and AVS objects as they were sent; for EPR the EPR list. "
            + "A 3 A cable leaves more than 3 A open.",
        Example = new LabelExample(
            "0x0801912C 0x0002D12C 0xC0DC213C", "PPS 3.3 V to 21 V is printed; PPS ends at 11 V.",
            Label: "USB-C: 5V⎓3A 9V⎓3A PPS 3.3-21V⎓3A"),
        Category = RuleCategory.Label,
    };

    private protected override ClaimKind Kind => ClaimKind.Range;

    private protected override ClaimOutcome Outcome => ClaimOutcome.NotAdvertised;
}
