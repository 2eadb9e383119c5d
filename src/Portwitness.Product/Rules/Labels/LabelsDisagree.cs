using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>Two labels of one product disagree.</summary>
public sealed class LabelsDisagree : Rule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "labels-disagree",
        Severity = Severity.Mismatch,
        Title = "Two labels of one product disagree",
        Clause = "printed label",
        Why = "Housing, box and leaflet are written at different times by different people. Where they differ, one of them promises what the product "
            + "does not keep, and the buyer may go by it.",
        Evidence = "Several labels under \"labels:\". What one of them leaves out contradicts nothing; a port that only one of them names, and a place that "
            + "was not read for sure, cannot be told; \"ports:\" says which names mean one port.",
        Example = new ProductExample(
            "0x0801912C", "65 W on the front is 60 W in the leaflet.",
            Members: "labels:\n  - {name: front, label: \"USB-C: 65W Max\"}\n  - {name: leaflet, label: \"USB-C: 60W Max\"}"),
        Category = RuleCategory.Label,
    };

    /// <summary>Holds two labels against each other.</summary>
    internal void Check(string firstName, Portwitness.Labels.Label first, string secondName, Portwitness.Labels.Label second, LabelPairFindings found)
    {
        foreach (LabelDifference difference in LabelDifferences.Of(first, second))
        {
            Phrase text = $"{firstName}, line {difference.At.Line}: {difference.First}; {secondName}, line {difference.OtherAt.Line}: {difference.Second}.";
            found.Report(
                this,
                new Hit(difference.IsSure ? Verdict.Fails : Verdict.CannotTell, text)
                {
                    LabelLine = difference.At.Line,
                    LabelColumn = difference.At.Column,
                    Expected = difference.First,
                    Observed = difference.Second,
                    NextStep = difference.IsSure ? null
                        : Phrase.Of($"Look at line {difference.At.Line} of {firstName} and line {difference.OtherAt.Line} of {secondName}: do both mean the same?"),
                },
                difference.Port, firstName, secondName, difference.OtherAt.Line);
        }
    }
}
