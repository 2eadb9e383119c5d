using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Energy;

/// <summary>Less charge came out than is rated.</summary>
public sealed class MeasuredCapacityBelowRated : EnergyRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "measured-capacity-below-rated",
        Severity = Severity.Mismatch,
        Title = "Less charge came out than is rated",
        Clause = "printed label; GB/T 35590 for the effective output capacity at rated voltage and current (second-hand)",
        Why = "The rated capacity is what the buyer can use, at the voltage and current printed beside it. Cells that are smaller than printed, or "
            + "a converter that loses more, show here and nowhere else.",
        Evidence = "A log of a whole discharge at the rated voltage and no more than the rated current, the meter's accuracy, and the rated capacity "
            + "with its voltage. The pack is taken to have been full when it began, unless \"begun: partly\" says otherwise.",
        Example = new ProductExample(
            "0x0801912C", "6000 mAh came out at 5 V, to the cut-off; 6400 mAh are rated.",
            Members: """
            label: |
              Battery: 10000mAh 3.7V 37Wh
              Rated capacity: 6400mAh (5V⎓2A)
              USB-C: 5V⎓3A
            discharges:
              - {port: C, at: 5V 2A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source, cut_off: 4.5V, longest_step: 1h}
            """,
            Log: "time (s),volts,amps\n0,5,2\n3600,5,2\n7200,5,2\n10800,5,2\n10801,4.4,2\n10811,4.4,2\n"),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(ProductEnergy product, IProductHitSink hits)
    {
        if (product.Label?.Battery is not { RatedCapacityMilliampereHours: { } milliampereHours } battery)
        {
            return;
        }

        // Enough at a smaller current accuses nobody, and neither does what holds.
        if (RatedDischarge.Of(product, battery, milliampereHours) is not { Log: { } best, IsEnough: false } discharge)
        {
            return;
        }

        hits.Report(
            this,
            new Hit(
                discharge.Verdict,
                Phrase.Of($"{Named(best)}: {EnergyText.Between(best.Charge, EnergyText.Charge)} {discharge.HowText}; "
                + $"{PrintedPowers.MilliampereHours(milliampereHours)} are rated{Basis(battery)}. Meter: {best.Meter.Text()}.")
                + (best.Log.BegunFull == true ? "" : " The pack is taken to have been full at the beginning."))
            {
                LabelLine = (battery.RatedAt ?? battery.At).Line,
                LabelColumn = (battery.RatedAt ?? battery.At).Column,
                Expected = $"at least {PrintedPowers.MilliampereHours(milliampereHours)}",
                Observed = $"{EnergyText.Charge(best.Charge.Value)}",
                NextStep = discharge.NextStep,
            },
            PlaceOf(best));
    }

    private static Phrase Basis(PrintedBattery battery) =>
        battery.RatedVoltage is null ? "" : battery.RatedCurrent is null ? $" at {battery.RatedVoltage}" : Phrase.Of($" at {battery.RatedVoltage} {battery.RatedCurrent}");
}
