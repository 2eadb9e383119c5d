using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Rules.Labels;

/// <summary>More power is printed than is offered.</summary>
public sealed class PrintedPowerExceedsAdvertised : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-power-exceeds-advertised",
        Severity = Severity.Mismatch,
        Title = "More power is printed than is offered",
        Clause = "printed label",
        Why = "The printed watts are what the product is bought for. A device can draw what the list offers, not what the label says.",
        Evidence = "A whole list of that port alone in use, captured with a cable that carries the printed power. A power that only a printed "
            + "rating of another protocol reaches is not owed by USB PD.",
        Example = new LabelExample(
            "0x0801912C 0x0002D12C 0x0004B12C", "65 W is printed, the largest object is 45 W.",
            Label: "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A (65W Max)"),
        Category = RuleCategory.Label,
    };

    private protected override ClaimKind Kind => ClaimKind.Power;

    private protected override ClaimOutcome Outcome => ClaimOutcome.Less;
}
