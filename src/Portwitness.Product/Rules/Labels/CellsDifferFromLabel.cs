using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The cells do not hold what is printed, in any way of printing it.</summary>
/// <remarks>Three per cent agree, ten per cent differ for sure: common practice, our thresholds. Series and parallel are physics.</remarks>
public sealed class CellsDifferFromLabel : BatteryRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "cells-differ-from-label",
        Severity = Severity.Mismatch,
        Title = "The cells do not hold what is printed",
        Clause = "printed label",
        Why = "A pack holds what its cells hold. Where neither the printed energy nor any usual way to print a capacity comes to that, the buyer "
            + "gets another pack than is printed.",
        Evidence = "Printed energy or capacity, and the cells under \"battery:\". Between three and ten per cent, typical and least capacity, or "
            + "other nominal volts, may explain the difference.",
        Example = new ProductExample(
            "0x0801912C", "Three cells of 2000 mAh 3.6 V hold 21.6 Wh; 49.95 Wh is printed.",
            Members: """
            label: "Battery: 13500mAh 3.7V 49.95Wh"
            battery: {cells: {series: 3, capacity_mah: 2000, nominal_v: 3.6}}
            """),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(BatteryFigures battery, ILabelHitSink hits)
    {
        if (battery is not { Printed: { } printed, Cells: { } cells })
        {
            return;
        }

        long ofEnergy = printed.Energy is { } energy ? CapacityBasis.EnergyDeviationPpm(printed, energy, cells) : 0;
        long ofCapacity = CapacityBasis.Nearest(printed, cells)?.DeviationPpm ?? 0;
        long worst = Math.Max(ofEnergy, ofCapacity);
        if (worst <= CapacityBasis.AgreesPpm)
        {
            return;
        }

        bool isSure = worst > CapacityBasis.DiffersPpm;
        (int? milliampereHours, PowerDelivery.Units.Voltage? volts) = BatteryFigures.CapacityOf(printed);
        Quantity capacity = PrintedPowers.MilliampereHours(milliampereHours ?? 0);
        bool isEnergy = ofEnergy >= ofCapacity;
        Place at = isEnergy ? printed.EnergyAt ?? printed.At : printed.At;
        Phrase observed = isEnergy ? Phrase.Of($"{printed.Energy}") : volts is null ? $"{capacity}" : Phrase.Of($"{capacity} {volts}");
        Phrase held = $"{EnergyText.Energy(cells.MicrowattHours)}";
        hits.Report(
            this,
            new Hit(
                isSure ? Verdict.Fails : Verdict.CannotTell,
                Phrase.Of($"{observed} is printed; {cells.Text} hold {held}") + (isEnergy ? "." : Phrase.Of($", which is printed as {CapacityBasis.Ways(cells)}.")))
            {
                LabelLine = at.Line,
                LabelColumn = at.Column,
                Expected = isEnergy ? held : CapacityBasis.Ways(cells),
                Observed = observed,
                NextStep = isSure ? null
                    : "Look up the cells' least and typical capacity and their nominal voltage, and state those that the label goes by; or log a discharge.",
            },
            "");
    }
}
