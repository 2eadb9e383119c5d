using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;
using Portwitness.Product.Rules.Labels;

namespace Portwitness.Product.Rules.Signalling;

/// <summary>A printed rating is backed neither by USB PD nor by what the port answers to besides.</summary>
public sealed class PrintedRatingWithoutSignalling : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-rating-without-signalling",
        Severity = Severity.Caution,
        Title = "Nothing that a port answers to backs a printed rating",
        Clause = "printed label; limits of USB BC 1.2 and USB Type-C",
        Why = "A device draws what it is told that it may draw. A rating that the port announces in no way is of no use to anybody, or belongs to "
            + "a protocol that was not looked for.",
        Evidence = "What the port answers to besides USB PD, in captures (\"rp\", \"line\") or in the product file (\"signalling:\").",
        Example = new ScriptExample(
            """
            port: A
            in_use: [A]
            steps:
              - attach
              - line bc1.2-dcp
            """,
            "5 V 2.4 A is printed; a device draws 1.5 A at most from a dedicated charging port of BC 1.2.",
            Label: "USB-A: 5V⎓2.4A"),
        Category = RuleCategory.Signalling,
    };

    private protected override ClaimKind Kind => ClaimKind.Fixed;

    private protected override ClaimOutcome Outcome => ClaimOutcome.NothingBacks;

    private protected override bool Concerns(Claim claim) => claim.Outcome == ClaimOutcome.NothingBacks;
}
