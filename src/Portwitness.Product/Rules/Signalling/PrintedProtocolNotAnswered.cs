using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;
using Portwitness.Product.Rules.Labels;

namespace Portwitness.Product.Rules.Signalling;

/// <summary>A port does not answer to the protocol that is printed for it.</summary>
public sealed class PrintedProtocolNotAnswered : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-protocol-not-answered",
        Severity = Severity.Mismatch,
        Title = "A port does not answer to a protocol that is printed for it",
        Clause = "printed label",
        Why = "Who buys a charger for the protocol on its label charges at the slowest rate when the port does not know it.",
        Evidence = "That the port was asked for the protocol and does not answer: \"no-\" and its word in a capture or in the product file.",
        Example = new ScriptExample(
            """
            port: C
            in_use: [C]
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - line no-ufcs
              - advertise
              - contract 2 at 3A
            """,
            "40 W by UFCS are printed, and the port does not answer to UFCS.",
            Label: "USB-C: 5V⎓3A 9V⎓3A PD 27W, UFCS 40W"),
        Category = RuleCategory.Signalling,
    };

    private protected override ClaimKind Kind => ClaimKind.Power;

    private protected override ClaimOutcome Outcome => ClaimOutcome.NotAnswered;

    private protected override bool Concerns(Claim claim) => claim.Outcome == ClaimOutcome.NotAnswered;
}
