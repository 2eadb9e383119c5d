using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The rated output is more than the cells hold.</summary>
/// <remarks>Energy is conserved; one per cent is left for rounding.</remarks>
public sealed class RatedCapacityExceedsEnergy : BatteryRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "rated-capacity-exceeds-energy",
        Severity = Severity.Mismatch,
        Title = "The rated output is more than the cells hold",
        Clause = "printed label",
        Why = "What comes out at 5 V cannot be more energy than the cells hold. Such a number is often the capacity of the "
            + "cells, printed with the voltage of the output.",
        Evidence = "The rated capacity with its voltage, and the cells' energy: stated under \"battery:\", or the largest that the print can mean.",
        Example = new LabelExample(
            "0x0801912C", "10000 mAh at 5 V are 50 Wh; the cells hold 37 Wh.",
            Label: "Battery: 10000mAh 3.7V 37Wh\nRated capacity: 10000mAh (5V⎓3A)"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(BatteryFigures battery, ILabelHitSink hits)
    {
        if (battery is { EnergiesMilliwattHours: [long cells, ..], RatedMilliwattHours: { } rated, Printed: { } printed } && rated > cells + (cells / 100))
        {
            Phrase held = battery.Cells is { } stated ? Phrase.Of($"{stated.Text} hold") : "the cells hold";
            hits.Report(
                this,
                new Hit(
                    Verdict.Fails,
                    $"{PrintedPowers.MilliampereHours(printed.RatedCapacityMilliampereHours ?? 0)} at {printed.RatedVoltage} are {PrintedPowers.WattHours(rated)}; "
                    + $"{held} {PrintedPowers.WattHours(cells)}.")
                {
                    LabelLine = (printed.RatedAt ?? printed.At).Line,
                    LabelColumn = (printed.RatedAt ?? printed.At).Column,
                    Expected = $"less than {PrintedPowers.WattHours(cells)}",
                    Observed = $"{PrintedPowers.WattHours(rated)}",
                },
                "");
        }
    }
}
