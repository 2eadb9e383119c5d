using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>Ports share power that each has alone.</summary>
public sealed class SharedBudget : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "shared-budget",
        Severity = Severity.Note,
        Title = "Ports share power that each has alone",
        Clause = "printed label",
        Why = "What a port gives alone is then not what it gives beside others. To know it, the ports have to be captured "
            + "together, in both orders of attaching.",
        Evidence = "What is printed for each port, and a total or combination below their sum.",
        Example = new LabelExample(
            "0x0801912C", "65 W and 20 W are 85 W; the total is 65 W.",
            Label: "USB-C1: 65W Max\nUSB-C2: 20W Max\nTotal: 65W"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedCombination combination in label.Combinations)
        {
            foreach (PrintedPool pool in combination.Pools)
            {
                Report($"{Phrase.JoinNames(" and ", pool.Ports)} share what \"{combination.Text}\" prints.", combination.At.Line, hits);
            }
        }

        if (label.Total is { Scope: "product" } total && label.Outputs.Length > 1
            && label.Outputs.All(static output => PrintedPowers.Of(output) is not null))
        {
            long sum = label.Outputs.Sum(static output => PrintedPowers.Of(output)!.Value);
            if (sum > total.Power.Milliwatts + PrintedPowers.Tolerance(total.Power.Milliwatts))
            {
                Phrase parts = Phrase.Join(" + ", label.Outputs.Select(static output => Phrase.Of($"{output.Port} {PrintedPowers.Watts(PrintedPowers.Of(output)!.Value)}")));
                Report($"Alone they give {parts} = {PrintedPowers.Watts(sum)}; in total it is {total.Power}.", total.At.Line, hits);
            }
        }
    }

    private void Report(Phrase detail, int line, ILabelHitSink hits) =>
        hits.Report(this, new Hit(Verdict.Fails, detail) { IsNote = true, LabelLine = line }, "");
}
