using Portwitness.Analysis.Findings;
using Portwitness.Labels;

namespace Portwitness.Analysis.Rules.Labels;

/// <summary>Rated output and cells imply an unusual efficiency.</summary>
/// <remarks>The band of 65 % to 97 % is common practice, no source.</remarks>
public sealed class ImpliedEfficiencyImplausible : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "implied-efficiency-implausible",
        Severity = Severity.Caution,
        Title = "Rated output and cells imply an unusual efficiency",
        Clause = "printed label",
        Why = "The rated output divided by the energy of the cells is the efficiency that the label claims. Far below the "
            + "usual, one of the two is given on another basis; near 100 % no converter works.",
        Evidence = "The cells' energy, and the rated capacity with its voltage.",
        Example = new(
            "0x0801912C", "15 Wh of 37 Wh are 41 %.",
            Label: "Battery: 10000mAh 3.7V 37Wh\nRated capacity: 3000mAh (5V⎓3A)"),
        Category = "label",
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        if (label.Battery is not { } battery || PrintedPowers.CellEnergy(battery) is not { } cells
            || PrintedPowers.RatedEnergy(battery) is not { } rated || rated > cells + (cells / 100))
        {
            return;
        }

        long percent = rated * 1000 / cells;
        if (percent is < 650 or > 970)
        {
            string share = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{percent / 10m:0.#} %");
            hits.Report(
                this,
                new Hit(
                    Verdict.Fails,
                    $"Rated output {PrintedPowers.WattHours(rated)} of {PrintedPowers.WattHours(cells)} in the cells is {share}.")
                {
                    LabelLine = (battery.RatedAt ?? battery.At).Line,
                    Expected = "65 % to 97 %; usual is 78 % to 92 %",
                    Observed = share,
                },
                "");
        }
    }
}
