using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>Ports together are printed with more than the total.</summary>
/// <remarks>The tolerance is half a watt or one per cent, whichever is more: common practice, no source.</remarks>
public sealed class CombinationExceedsTotal : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "combination-exceeds-total",
        Severity = Severity.Mismatch,
        Title = "Ports together are printed with more than the total",
        Clause = "printed label",
        Why = "What the ports give at once cannot be more than the total. One of the two numbers is not true, and a supply that "
            + "gives both is overloaded.",
        Evidence = "The combination's powers for all its ports, and the printed total with its scope.",
        Example = new LabelExample(
            "0x0801912C", "45 W and 30 W are 75 W; the total is 65 W.",
            Label: "USB-C1: 65W Max\nUSB-C2: 30W Max\nC1+C2: 45W+30W\nTotal: 65W"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedCombination combination in label.Combinations)
        {
            if (PrintedPowers.Sum(combination) is not { } sum)
            {
                continue;
            }

            bool isOwn = combination.Total is not null;
            bool isProducts = isOwn || label.Total?.Scope == "product";
            if ((combination.Total ?? label.Total?.Power)?.Milliwatts is { } total && sum > total + PrintedPowers.Tolerance(total))
            {
                // "Max output 65W" may be the most of one port.
                hits.Report(
                    this,
                    new Hit(
                        isProducts ? Verdict.Fails : Verdict.CannotTell,
                        $"{Phrase.JoinNames(" + ", combination.Ports)} come to {PrintedPowers.Watts(sum)} together by \"{combination.Text}\"; "
                        + $"the {(isOwn ? "total of this combination" : "printed total")} is {PrintedPowers.Watts(total)}.")
                    {
                        LabelLine = combination.At.Line,
                        Expected = $"at most {PrintedPowers.Watts(total)}",
                        Observed = $"{PrintedPowers.Watts(sum)}",
                        NextStep = isProducts ? null : Phrase.Of($"Ask whether \"{label.Total!.Text}\" is the product's total or the most of one port."),
                    },
                    "");
            }
        }
    }
}
