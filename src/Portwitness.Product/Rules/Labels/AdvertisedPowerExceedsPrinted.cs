using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Rules.Labels;

/// <summary>More power is offered than is printed.</summary>
public sealed class AdvertisedPowerExceedsPrinted : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "advertised-power-exceeds-printed",
        Severity = Severity.Mismatch,
        Title = "More power is offered than is printed",
        Clause = "printed label",
        Why = "The plate states what the product is rated for. A port that offers more may be driven beyond its rating, and the "
            + "sets of volts, amperes and watts on the plate are then not complete.",
        Evidence = "The printed maximum or modes of the port, and a whole list of it.",
        Example = new LabelExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x0006412C", "45 W is printed, 60 W is offered.",
            Label: "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3A (45W Max)"),
        Category = RuleCategory.Label,
    };

    private protected override ClaimKind Kind => ClaimKind.Power;

    private protected override ClaimOutcome Outcome => ClaimOutcome.More;
}
