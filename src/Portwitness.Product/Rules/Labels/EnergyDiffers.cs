using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>Printed watt-hours are not volts times ampere-hours.</summary>
/// <remarks>One per cent, or half of the last printed digit: common practice, our threshold.</remarks>
public sealed class EnergyDiffers : BatteryRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "energy-differs",
        Severity = Severity.Caution,
        Title = "Printed watt-hours are not volts times ampere-hours",
        Clause = "printed label",
        Why = "Energy, capacity and voltage of the cells say the same thing in two ways. Where they differ, the capacity is "
            + "perhaps that of another voltage, and the pack holds less than it seems.",
        Evidence = "Printed energy, capacity and voltage that no usual way of printing a capacity explains. Where the cells are stated, they decide.",
        Example = new LabelExample("0x0801912C", "10000 mAh at 3.7 V are 37 Wh, not 45 Wh.", Label: "Battery: 10000mAh 3.7V 45Wh"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(BatteryFigures battery, ILabelHitSink hits)
    {
        if (battery is not { Cells: null, Printed: { Energy: { } printed } figures, Basis: PrintedBasis.Unexplained or PrintedBasis.PerhapsAtFiveVolts }
            || BatteryFigures.CapacityOf(figures) is not ({ } capacity, { } volts))
        {
            return;
        }

        bool isOpen = battery.Basis == PrintedBasis.PerhapsAtFiveVolts;
        Quantity product = PrintedPowers.WattHours(BatteryFigures.MilliwattHours(volts, capacity));
        hits.Report(
            this,
            new Hit(
                isOpen ? Verdict.CannotTell : Verdict.Fails,
                Phrase.Of($"{PrintedPowers.MilliampereHours(capacity)} at {volts} are {product}; {printed} is printed.") + (isOpen ? " Counted at 5 V, the capacity agrees with it." : ""))
            {
                LabelLine = (figures.EnergyAt ?? figures.At).Line,
                Expected = $"{product}",
                Observed = $"{printed}",
                NextStep = isOpen ? "State the cells under \"battery:\", or log a discharge of the pack." : null,
            },
            "");
    }
}
