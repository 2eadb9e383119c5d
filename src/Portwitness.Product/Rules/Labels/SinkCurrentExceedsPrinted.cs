using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A port takes more current than is printed for its input.</summary>
public sealed class SinkCurrentExceedsPrinted : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "sink-current-exceeds-printed",
        Severity = Severity.Mismatch,
        Title = "A port takes more current than is printed for its input",
        Clause = "printed label; R3.2v1.1 6.4.1.3 for the list of a sink",
        Why = "The printed input is what the product is rated to take, and what its charger is chosen by. A port that asks for more may "
            + "overload the charger, or be driven beyond its own rating.",
        Evidence = "The port, as a source, answers Get_Sink_Cap; its power role is never swapped in the capture. "
            + "Or a charge was logged at a printed voltage.",
        Example = new LabelExample(
            """
            {"capture":1,"port":"C","in_use":["C"]}
            {"t":1000,"sop":"SOP","hex":"A1112C910120"}
            {"t":9000,"sop":"SOP","hex":"A4212C9101202CD10200"}
            """,
            "9 V 2 A is printed for the input; the port takes 9 V 3 A.",
            Label: "USB-C Input: 5V⎓3A 9V⎓2A\nUSB-C Output: 5V⎓3A"),
        Category = RuleCategory.Label,
    };

    private protected override ClaimKind Kind => ClaimKind.Input;

    private protected override ClaimOutcome Outcome => ClaimOutcome.TakesMore;
}
