using Portwitness.Analysis.Findings;
using Portwitness.Labels;

namespace Portwitness.Analysis.Rules.Labels;

/// <summary>Printed watt-hours are not volts times ampere-hours.</summary>
/// <remarks>One per cent, or half of the last printed digit: common practice, our threshold.</remarks>
public sealed class EnergyDiffers : PrintedRule
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
        Evidence = "Printed energy, capacity and voltage of the cells.",
        Example = new("0x0801912C", "10000 mAh at 3.7 V are 37 Wh, not 45 Wh.", Label: "Battery: 10000mAh 3.7V 45Wh"),
        Category = "label",
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        if (label.Battery is not { Energy: { } printed, CapacityMilliampereHours: { } capacity, NominalVoltage: { } volts } battery)
        {
            return;
        }

        long product = PrintedPowers.Energy(volts, capacity);
        long tolerance = Math.Max(printed.MilliwattHours / 100, (battery.EnergyStep?.MilliwattHours ?? 0) / 2);
        if (Math.Abs(product - printed.MilliwattHours) > tolerance)
        {
            hits.Report(
                this,
                new Hit(Verdict.Fails, $"{capacity} mAh at {volts} are {PrintedPowers.WattHours(product)}; {printed} is printed.")
                {
                    LabelLine = (battery.EnergyAt ?? battery.At).Line,
                    Expected = PrintedPowers.WattHours(product),
                    Observed = printed.ToString(),
                },
                "");
        }
    }
}
