using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;
using Portwitness.Product.Rules.Labels;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>Ports in use together offer another voltage than is printed for them.</summary>
public sealed class CombinationVoltageNotAsPrinted : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "combination-voltage-not-as-printed",
        Severity = Severity.Mismatch,
        Title = "Ports together offer another voltage than is printed for them",
        Clause = "printed label",
        Why = "Where a label prints that ports fall back to 5 V together, a port that still offers 9 V can draw more than they share; and where "
            + "a voltage is offered in one attach order only, a device works or not by what was plugged in first.",
        Evidence = "A printed combination with voltages, and captures of its ports in use together.",
        Example = new ScriptExample(
            """
            port: C1
            in_use: [C1, A]
            attach_order: [C1, A]
            edition: R3.0
            source: [5V 3A, 9V 2A]
            steps:
              - attach
              - advertise
              - contract 2 at 2A
            """,
            "5 V are printed for C1 and A together, and C1 still offers 9 V.",
            Label: "USB-C1: 5V⎓3A 9V⎓2A (18W Max)\nUSB-A: 5V⎓2.4A\nC1+A: 5V⎓3A shared"),
        Category = RuleCategory.Arrangements,
    };

    private protected override ClaimKind Kind => ClaimKind.Fixed;

    private protected override ClaimOutcome Outcome => ClaimOutcome.OtherVoltage;

    private protected override bool Concerns(Claim claim) => claim.Outcome == ClaimOutcome.OtherVoltage
        || (claim.Outcome == ClaimOutcome.OtherOrder && claim.Kind is ClaimKind.Fixed or ClaimKind.Range);
}
