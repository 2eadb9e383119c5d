using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.Product.Soaks;

namespace Portwitness.Product.Rules.Energy;

/// <summary>The power that is printed is not held.</summary>
public sealed class PrintedPowerNotSustained : SoakRule
{
    // At least 98 % is sustained, less than 90 % is not (common practice, no source).
    private const int SustainedPercent = 98;
    private const int NotSustainedPercent = 90;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-power-not-sustained",
        Severity = Severity.Caution,
        Title = "The power that is printed is not held",
        Clause = "common practice, no source: a printed mode without a time is taken to be continuous at 20 to 25 °C, that of a pack until it is empty; 98 % of it counts as held, less than 90 % as not",
        Why = "A charger that gives its power for some minutes and then less charges a laptop no faster than a smaller one does.",
        Evidence = "\"soaks:\", or a log of a load of five minutes or more, that draws the printed current at the port's own connector.",
        Example = new ProductExample(
            "0x0801912C 0x0006412C", "60 W are printed; after 18 minutes the voltage falls to 15 V.",
            Members: """
            label: "USB-C: 5V⎓3A 20V⎓3A"
            soaks:
              - {port: C, at: 20V 3A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.1%}, measured_at: source, longest_step: 1h}
            """,
            Log: FallsBack),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(Soak soak, IProductHitSink hits)
    {
        if (soak.PrintedMilliwatts is not { } printed || !soak.AsksForPrinted || soak.Power.Fall is PowerFall.None or PowerFall.Current)
        {
            return;
        }

        // A pack that goes off is empty, and what it held is told by its energy.
        SustainedPower power = soak.Power;
        if (soak.IsPack && power.Fall == PowerFall.Off)
        {
            return;
        }

        long left = power.Fall == PowerFall.Off ? 0 : power.SteadyMilliwatts ?? power.AtFall.Microvolts * power.AtFall.Microamperes / 1_000_000_000;
        long percent = left * 100 / Math.Max(1, printed);
        if (percent >= SustainedPercent)
        {
            return;
        }

        bool isSure = soak.IsOfSource && percent < NotSustainedPercent && soak.Log.Meter.Point == Captures.MeasuringPoint.Source;
        hits.Report(
            this,
            new Hit(
                isSure ? Verdict.Fails : Verdict.CannotTell,
                $"{Watts(power.FirstMilliwatts)} for {EnergyText.Time(power.FellAtUs ?? 0)}, then {Watts(left)}, {percent} % of the printed {Watts(printed)}"
                + $"{(power.RecoveredAtUs is null ? "" : "; it came back later")}.")
            {
                LabelLine = soak.Printed?.At.Line, LabelColumn = soak.Printed?.At.Column, Expected = $"{Watts(printed)}", Observed = $"{Watts(left)}",
                NextStep = isSure ? null
                    : soak.Log.Meter.Point != Captures.MeasuringPoint.Source ? "Measure at the port's own connector (measured_at: source), with a load of constant current."
                    : "Hold the load for longer, with constant current and the temperature of room and housing.",
            },
            PlaceOf(soak, power.StartUs + power.FellAtUs));
    }

    private static Quantity Watts(long milliwatts) => new(milliwatts, QuantityUnit.Milliwatts);
}
