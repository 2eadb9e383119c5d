using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Rules.Energy;

/// <summary>The output's voltage stays outside its limits under a steady load.</summary>
public sealed class OutputVoltageOutsideTolerance : EnergyRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "output-voltage-outside-tolerance",
        Severity = Severity.Mismatch,
        Title = "The output's voltage stays outside its limits under load",
        Clause = "R3.2v1.1 Table 7.23 (vSrcNew) and 7.1.8; GB/T 35590 has the same 5 % (second-hand)",
        Why = "A device that was promised a voltage charges slowly, stops, or is damaged when the output leaves it for long.",
        Evidence = "A log, or a reading of a load, with its voltage stated under \"at:\", where and how exactly it was measured, and a load of no more than the printed current. "
            + "Below the limit a cable may be the reason, unless it was measured at the port.",
        Example = new ProductExample(
            "0x0801912C", "The output stays at 4.6 V for an hour.",
            Members: """
            label: "USB-C: 5V⎓3A"
            discharges:
              - {port: C, at: 5V 2A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source, longest_step: 1h}
            """,
            Log: "time (s),volts,amps\n0,5,2\n10,4.6,2\n3600,4.6,2\n7200,5,2\n"),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(ProductEnergy product, IProductHitSink hits)
    {
        foreach (MeasuredLog log in product.Logs.Where(static log => log.Limits is not null))
        {
            Report(product, log, log.Above.Read, log.Above.Sure, hits);
            bool atPort = log.Log.MeasuredAt == MeasuringPoint.Source;
            Report(product, log, log.Below.Read, atPort ? log.Below.Sure : log.Below.BeyondCable, hits);
        }

        foreach (LoadReading reading in product.Readings)
        {
            Report(product, reading, hits);
        }
    }

    private void Report(ProductEnergy product, LoadReading reading, IProductHitSink hits)
    {
        VoltageBand limits = reading.Limits;
        bool isAbove = reading.Measured > limits.Maximum;
        if (!isAbove && reading.Measured >= limits.Minimum)
        {
            return;
        }

        (LogMeter meter, long read, long drawn) = (reading.Meter, reading.Measured.Millivolts * 1000L, reading.Drawn.Milliamperes * 1000L);
        int drop = reading.MeasuredAt == MeasuringPoint.Source ? 0 : VbusLimits.CableDrop.Millivolts;
        bool isSure = isAbove
            ? read > meter.SurelyAbove(limits.Maximum.Millivolts * 1000L)
            : read < meter.SurelyBelow((limits.Minimum.Millivolts - drop) * 1000L);
        PrintedFixed? printed = product.Printed(reading.Port, reading.AtVoltage);
        Phrase? next = NextStep(ProductEnergy.IsWithinPrinted(printed, meter, drawn), isSure);
        hits.Report(
            this,
            new Hit(
                next is null ? Verdict.Fails : Verdict.CannotTell,
                $"{reading.Port} at {reading.AtVoltage}: {EnergyText.Volts(read)} were read with {EnergyText.Amperes(drawn)} drawn. Meter: {meter.Text()}.")
            {
                LabelLine = printed?.At.Line, LabelColumn = printed?.At.Column,
                Expected = $"{limits.Minimum} to {limits.Maximum}", Observed = $"{EnergyText.Volts(read)}", NextStep = next,
            },
            new ProductPlace(reading.Port, reading.InUse) { File = product.File });
    }

    private static Phrase? NextStep(bool? isWithinPrinted, bool isSure) =>
        isWithinPrinted == false ? "Repeat it with no more than the printed current."
        : isWithinPrinted is null ? "Say which current the port is printed with at this voltage."
        : isSure ? null
        : "Measure at the port's own connector (measured_at: source), with a more exact meter.";

    private void Report(ProductEnergy product, MeasuredLog log, Outside? read, Outside? sure, IProductHitSink hits)
    {
        // A load step may take VBUS out of its limits for a moment.
        bool isSure = sure?.LengthUs > VbusLimits.TransientUs;
        if (!isSure && !(read?.LengthUs > VbusLimits.TransientUs))
        {
            return;
        }

        Outside seen = isSure ? sure! : read!;
        bool? isWithin = ProductEnergy.IsWithinPrinted(product.Printed(log), log.Meter, log.Mean?.Microamperes ?? 0);
        Phrase? next = log.UnitsAssumed ? "State the units of the log's columns." : NextStep(isWithin, isSure);
        VoltageBand limits = log.Limits!.Value;
        hits.Report(
            this,
            new Hit(
                next is null ? Verdict.Fails : Verdict.CannotTell,
                $"{Named(log)}: {EnergyText.Volts(seen.Microvolts)} at the worst, outside for {EnergyText.Time(seen.LengthUs)} from line {seen.Line} on, with "
                + $"{EnergyText.Amperes(log.Mean?.Microamperes ?? 0)} drawn. Meter: {log.Meter.Text()}.")
            {
                LabelLine = product.Printed(log)?.At.Line, LabelColumn = product.Printed(log)?.At.Column,
                Expected = $"{limits.Minimum} to {limits.Maximum}", Observed = $"{EnergyText.Volts(seen.Microvolts)}", NextStep = next,
            },
            PlaceOf(log, seen.StartUs));
    }
}
