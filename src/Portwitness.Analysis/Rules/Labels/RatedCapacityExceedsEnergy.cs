using Portwitness.Analysis.Findings;
using Portwitness.Labels;

namespace Portwitness.Analysis.Rules.Labels;

/// <summary>The rated output is more than the cells hold.</summary>
/// <remarks>Energy is conserved; one per cent is left for rounding.</remarks>
public sealed class RatedCapacityExceedsEnergy : PrintedRule
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
        Evidence = "The cells' energy, or their capacity and voltage, and the rated capacity with its voltage.",
        Example = new(
            "0x0801912C", "10000 mAh at 5 V are 50 Wh; the cells hold 37 Wh.",
            Label: "Battery: 10000mAh 3.7V 37Wh\nRated capacity: 10000mAh (5V⎓3A)"),
        Category = "label",
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        if (label.Battery is { } battery && PrintedPowers.CellEnergy(battery) is { } cells && PrintedPowers.RatedEnergy(battery) is { } rated
            && rated > cells + (cells / 100))
        {
            hits.Report(
                this,
                new Hit(
                    Verdict.Fails,
                    $"{battery.RatedCapacityMilliampereHours} mAh at {battery.RatedVoltage} are {PrintedPowers.WattHours(rated)}; "
                    + $"the cells hold {PrintedPowers.WattHours(cells)}.")
                {
                    LabelLine = (battery.RatedAt ?? battery.At).Line,
                    Expected = $"less than {PrintedPowers.WattHours(cells)}",
                    Observed = PrintedPowers.WattHours(rated),
                },
                "");
        }
    }
}
