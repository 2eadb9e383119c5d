using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>Rated output and cells imply an unusual efficiency.</summary>
/// <remarks>The band of 65 % to 97 % is common practice, no source.</remarks>
public sealed class ImpliedEfficiencyImplausible : BatteryRule
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
        Evidence = "The cells' energy, stated or printed, and the rated capacity with its voltage. It has to be unusual in every way that the print can be read.",
        Example = new LabelExample(
            "0x0801912C", "15 Wh of 37 Wh are 41 %.",
            Label: "Battery: 10000mAh 3.7V 37Wh\nRated capacity: 3000mAh (5V⎓3A)"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(BatteryFigures battery, ILabelHitSink hits)
    {
        if (battery.EnergiesMilliwattHours is not [long cells, ..] energies || battery.RatedMilliwattHours is not { } rated
            || rated > cells + (cells / 100))
        {
            return;
        }

        if (energies.All(energy => rated * 1000 / energy is < 650 or > 970))
        {
            Quantity share = new(rated * 1000 / cells * 1000, QuantityUnit.PartsPerMillion);
            hits.Report(
                this,
                new Hit(
                    Verdict.Fails,
                    $"Rated output {PrintedPowers.WattHours(rated)} of {PrintedPowers.WattHours(cells)} in the cells is {share}.")
                {
                    LabelLine = (battery.Printed!.RatedAt ?? battery.Printed.At).Line,
                    Expected = "65 % to 97 %; usual is 78 % to 92 %",
                    Observed = $"{share}",
                },
                "");
        }
    }
}
