using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A printed rating is backed by no object.</summary>
public sealed class PrintedRatingNotAdvertised : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-rating-not-advertised",
        Severity = Severity.Mismatch,
        Title = "A printed rating is backed by no object",
        Clause = "printed label",
        Why = "A device can only ask for what is offered. A voltage that is printed and not offered is never delivered over USB "
            + "PD; the device charges at a lower voltage, or not at all.",
        Evidence = "A whole list of that port, captured with a 5 A or EPR cable where the rating needs one. Where "
            + "the label prints another protocol for it, PD alone cannot tell.",
        Example = new LabelExample(
            "0x0801912C 0x0002D0DE", "15 V 3 A is printed; the list ends at 9 V.",
            Label: "USB-C: 5V⎓3A 9V⎓2.22A 15V⎓3A"),
        Category = RuleCategory.Label,
    };

    private protected override ClaimKind Kind => ClaimKind.Fixed;

    private protected override ClaimOutcome Outcome => ClaimOutcome.NotAdvertised;
}
