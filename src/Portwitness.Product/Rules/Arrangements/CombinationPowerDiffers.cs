using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;
using Portwitness.Product.Rules.Labels;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>A combination's printed power holds in the printed attach order and not in another.</summary>
/// <remarks>What differs in the printed order already is told by the rules about printed power; a statement is accused once.</remarks>
public sealed class CombinationPowerDiffers : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "combination-power-differs",
        Severity = Severity.Mismatch,
        Title = "A combination's printed power is not offered in every attach order",
        Clause = "printed label",
        Why = "A label that prints what ports give together names no order, and nobody plugs in the order of a label. What holds "
            + "only when one port is attached first is not what is printed.",
        Evidence = "Captures of the combination in another attach order than the printed one, each with its order stated.",
        Example = new ScriptExample(
            """
            port: C1
            in_use: [C1]
            edition: R3.0
            cable: 5A detachable
            source:
              alone: [5V 3A, 9V 3A, 15V 3A, 20V 3.25A]
              first: [5V 3A, 9V 3A, 15V 3A, 20V 2.25A]
              last: [5V 3A, 9V 2.22A]
            steps:
              - attach
              - discover-cable
              - advertise alone
              - contract 4 at 3.25A
              - attach C2
              - advertise first
              - contract 4 at 2.25A
              - pause 3s
              - detach
              - attach
              - discover-cable
              - advertise last
              - contract 2 at 2.22A
            """,
            "45 W are printed for C1 beside C2. With C2 attached first it is 20 W.",
            Label: "USB-C1: 65W Max\nUSB-C2: 20W Max\nC1+C2: 45W+20W"),
        Category = RuleCategory.Arrangements,
    };

    private protected override ClaimKind Kind => ClaimKind.Power;

    private protected override ClaimOutcome Outcome => ClaimOutcome.OtherOrder;
}
