using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Energy;

/// <summary>Less charge came out than is rated.</summary>
/// <remarks>
/// The rated capacity holds at its printed voltage and current; of several discharges there the best one counts (GB/T 35590, effective
/// output capacity at rated voltage and current, second-hand; IEC 61960, one of up to five cycles, from memory).
/// </remarks>
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

        MeasuredLog? best = product.Logs
            .Where(log => log.Log.Kind == LogKind.Discharge && log.Log.BegunFull != false && log.EverLoaded
                && (log.Log.AtVoltage is null || battery.RatedVoltage is null || log.Log.AtVoltage == battery.RatedVoltage))
            .MaxBy(log => log.Charge.Value);
        long rated = milliampereHours * 1000L;
        if (best is null || best.Charge.Least >= rated)
        {
            return;
        }

        (bool fails, Phrase? next) = Judge(best, battery, rated);
        hits.Report(
            this,
            new Hit(
                fails ? Verdict.Fails : Verdict.CannotTell,
                Phrase.Of($"{Named(best)}: {EnergyText.Between(best.Charge, EnergyText.Charge)} came out in {EnergyText.Time(best.LoadUs)} under load, {Ended(best)}; "
                + $"{PrintedPowers.MilliampereHours(milliampereHours)} are rated{Basis(battery)}. Meter: {best.Meter.Text()}.")
                + (best.Log.BegunFull == true ? "" : " The pack is taken to have been full at the beginning."))
            {
                LabelLine = (battery.RatedAt ?? battery.At).Line,
                LabelColumn = (battery.RatedAt ?? battery.At).Column,
                Expected = $"at least {PrintedPowers.MilliampereHours(milliampereHours)}",
                Observed = $"{EnergyText.Charge(best.Charge.Value)}",
                NextStep = next,
            },
            PlaceOf(best));
    }

    private static (bool Fails, Phrase? NextStep) Judge(MeasuredLog log, PrintedBattery battery, long rated)
    {
        return !log.RanOut ? (false, "Go on with the discharge until the output goes off, or to a stated cut-off.")
            : log.UnitsAssumed ? (false, "State the units of the log's columns.")
            : battery.RatedVoltage is null ? (false, "Ask at which voltage and current the capacity is rated; the label does not say.")
            : log.Log.AtVoltage is null ? (false, "State the voltage and current of the discharge: \"at: 5V 2A\".")
            : battery.RatedCurrent is { } printed && (log.Log.AtCurrent is not { } drawn || drawn > printed)
                ? (false, $"Discharge with no more than the rated {printed}, and state it with \"at:\".")
            : log.Charge.Most is not { } most ? (false, "Discharge again with a log without gaps and steps of the clock.")
            : most >= rated ? (false, log.Charge.MostCounted < rated ? "Discharge again with a log without gaps."
                : log.Meter.States ? "Discharge again with a more exact meter; the rated capacity lies within its uncertainty."
                : "State the meter's accuracy: \"accuracy: {volts: 0.1%, amps: 0.2%}\".")
            : (true, null);
    }

    private static Phrase Ended(MeasuredLog log) => log.End switch
    {
        LogEnd.CutOff => Phrase.Of($"to the cut-off of {log.Log.CutOff}"),
        LogEnd.OutputOff => "until the output went off",
        LogEnd.LoadOff => "until the load was taken away",
        _ => "to the end of the log, with the output still on",
    };

    private static Phrase Basis(PrintedBattery battery) =>
        battery.RatedVoltage is null ? "" : battery.RatedCurrent is null ? $" at {battery.RatedVoltage}" : Phrase.Of($" at {battery.RatedVoltage} {battery.RatedCurrent}");
}
