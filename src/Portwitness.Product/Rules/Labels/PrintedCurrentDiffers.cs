using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A printed current is not the one that is offered.</summary>
public sealed class PrintedCurrentDiffers : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-current-differs",
        Severity = Severity.Mismatch,
        Title = "A printed current is not the one that is offered",
        Clause = "printed label",
        Why = "The current decides the power at that voltage. Less than printed means slower charging than promised. More is a promise "
            + "that is kept, and noted: the label does not tell all of it, or describes another version.",
        Evidence = "A whole list of that port, captured with a cable that carries the printed current.",
        Example = new LabelExample(
            "0x0801912C 0x0002D0C8", "9 V 3 A is printed, 9 V 2 A is offered.",
            Label: "USB-C: 5V⎓3A 9V⎓3A"),
        Category = RuleCategory.Label,
    };

    private protected override ClaimKind Kind => ClaimKind.Fixed;

    private protected override ClaimOutcome Outcome => ClaimOutcome.CurrentDiffers;

    // A range that is offered with too little current is the same disagreement.
    private protected override bool Concerns(Claim claim) => claim.Outcome == Outcome;
}
