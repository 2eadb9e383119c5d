using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A port declares another power than is printed.</summary>
public sealed class DeclaredPowerDiffersFromPrinted : ClaimRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "declared-power-differs-from-printed",
        Severity = Severity.Mismatch,
        Title = "A port declares another power than is printed",
        Clause = "printed label; R3.2v1.1 6.4.11, 6.5.1",
        Why = "The port tells devices what it is rated for, and devices and hosts choose by it. Where the label says something else, "
            + "one of the two belongs to another product or firmware.",
        Evidence = "The port answers Get_Source_Info or Get_Source_Cap_Extended, alone in use.",
        Example = new LabelExample(
            """
            {"capture":1,"port":"C","in_use":["C"]}
            {"t":1000,"sop":"SOP","hex":"AB133C3C3C80"}
            {"t":9000,"sop":"SOP","hex":"A1412C9101082CD102002CB1040045410600"}
            """,
            "65 W is printed and offered; the port declares 60 W.",
            Label: "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)"),
        Category = RuleCategory.Label,
    };

    private protected override ClaimKind Kind => ClaimKind.Power;

    private protected override ClaimOutcome Outcome => ClaimOutcome.DeclaredDiffers;
}
