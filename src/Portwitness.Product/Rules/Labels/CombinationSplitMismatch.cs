using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A combination has more or fewer values than ports.</summary>
public sealed class CombinationSplitMismatch : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "combination-split-mismatch",
        Severity = Severity.Caution,
        Title = "A combination has more or fewer values than ports",
        Clause = "printed label",
        Why = "Values of a combination belong to its ports in order. Where they are not as many, nobody can say which port "
            + "gives what.",
        Evidence = "The combination's ports and its split, both read.",
        Example = new LabelExample(
            "0x0801912C", "Two values are printed for three ports.",
            Label: "USB-C1: 65W Max\nUSB-C2: 20W Max\nUSB-A: 12W Max\nC1+C2+A: 45W+15W"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (UnfitSplit unfit in label.UnfitSplits)
        {
            AmbiguousCombination? either = label.Ambiguous.FirstOrDefault(one => one.At == unfit.At);
            Phrase read = either is null ? "it was not read" : Phrase.Of($"it can be read in {either.Readings.Length} ways");
            hits.Report(
                this,
                new Hit(
                    Verdict.CannotTell,
                    $"\"{unfit.Text}\" has {unfit.Values} values for {unfit.Ports.Length} ports ({Phrase.JoinNames(", ", unfit.Ports)}); {read}.")
                {
                    LabelLine = unfit.At.Line,
                    Expected = $"{unfit.Ports.Length} values",
                    Observed = $"{unfit.Values} values",
                    NextStep = $"Read line {unfit.At.Line} of the label by hand: two of the ports may share a value.",
                },
                "");
        }
    }
}
