using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A printed capacity is given on another basis than the printed voltage.</summary>
/// <remarks>That capacities are printed in these ways is common practice, no source.</remarks>
public sealed class CapacityBasisExplained : BatteryRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "capacity-basis-explained",
        Severity = Severity.Note,
        Title = "A printed capacity is given on another basis than the pack's own",
        Clause = "common practice, no source: the pack's mAh at the pack's volts, the cells' mAh added up, or mAh at 5 V",
        Why = "Milliampere-hours of cells in series can be printed in three ways, and only watt-hours compare. Multiplied with the voltage that "
            + "stands beside it, such a capacity gives several times the energy that is there.",
        Evidence = "Printed capacity with energy or voltage, or the cells under \"battery:\".",
        Example = new LabelExample(
            "0x0801912C", "Three cells of 4500 mAh are added up and stand beside the 10.8 V of the pack.",
            Label: "Battery: 13500mAh 10.8V 48.6Wh"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(BatteryFigures battery, ILabelHitSink hits)
    {
        if (battery.Printed is not { } printed || BatteryFigures.CapacityOf(printed).MilliampereHours is not { } capacity
            || (battery.Cells is { } cells ? OfCells(printed, cells) : OfLabel(battery, printed)) is not { } explanation)
        {
            return;
        }

        hits.Report(
            this,
            new Hit(default, $"{PrintedPowers.MilliampereHours(capacity)} is {explanation}. What counts is the energy: {PrintedPowers.WattHours(battery.EnergiesMilliwattHours[0])}.")
            {
                IsNote = true, LabelLine = printed.At.Line, Observed = $"{PrintedPowers.MilliampereHours(capacity)}",
            },
            "");
    }

    private static Phrase? OfCells(PrintedBattery printed, StatedCells cells) =>
        CapacityBasis.Nearest(printed, cells) is { IsPack: false, DeviationPpm: <= CapacityBasis.AgreesPpm } reading
        && (printed.Energy is not { } energy
            || CapacityBasis.DeviationPpm(energy.MilliwattHours * 1000, cells.MicrowattHours) <= CapacityBasis.DiffersPpm)
            ? Phrase.Of($"{reading.Text} ({cells.Text})")
            : null;

    private static Phrase? OfLabel(BatteryFigures battery, PrintedBattery printed) => battery.Basis switch
    {
        PrintedBasis.CellsAdded =>
            Phrase.Of($"the mAh of {CapacityBasis.SeriesBeside(printed)} cells in series added up, beside the volts of the pack, as {printed.Energy} says"),
        PrintedBasis.AtFiveVolts => $"counted at 5 V, perhaps less a converter's loss, as {printed.Energy} says",
        _ => null,
    };
}
