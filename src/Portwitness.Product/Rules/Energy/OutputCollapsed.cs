using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Rules.Energy;

/// <summary>The output went off under load and came back, before the pack was empty. One that stays off may have been unplugged, or be empty.</summary>
/// <remarks>An empty pack's output may go off and come back a few times; that the last tenth of the time is its end is common practice, no source.</remarks>
public sealed class OutputCollapsed : EnergyRule
{
    private const int LastPart = 10;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "output-collapsed",
        Severity = Severity.Mismatch,
        Title = "The output went off under load",
        Clause = "printed label; that it is to give its printed current until it is empty",
        Why = "A protection that trips at the printed current, by heat or by overload, leaves the user with a dead output; what is printed is then "
            + "no more than a peak.",
        Evidence = "A log under a steady load, and the printed current at that voltage. A load above it, or one that nothing is printed for, cannot be told.",
        Example = new ProductExample(
            "0x0801912C", "The output goes off after ten minutes at 2 A, and comes back.",
            Members: """
            label: |
              Battery: 10000mAh 3.7V 37Wh
              USB-C: 5V⎓3A
            discharges:
              - {port: C, at: 5V 2A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source, longest_step: 1h}
            """,
            Log: "time (s),volts,amps\n0,5,2\n600,5,2\n601,0,0\n611,5,2\n7200,5,2\n"),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(ProductEnergy product, IProductHitSink hits)
    {
        foreach (MeasuredLog log in product.Logs)
        {
            if (log.Collapses.FirstOrDefault(static one => one.OffUs is not null) is not { OffUs: { } off } first
                || (product.IsPack && log.EndUs - first.AtUs <= log.LoadUs / LastPart))
            {
                continue;
            }

            bool? isWithin = ProductEnergy.IsWithinPrinted(product.Printed(log), log.Meter, first.Microamperes);
            Phrase again = log.CollapseCount > 1 ? Phrase.Of($"; it went off {log.CollapseCount} times in all") : "";
            bool fails = isWithin == true && !log.UnitsAssumed;
            hits.Report(
                this,
                new Hit(
                    fails ? Verdict.Fails : Verdict.CannotTell,
                    $"{Named(log)}: the output went off at {EnergyText.Time(first.AtUs)} (line {first.Line}) with {EnergyText.Amperes(first.Microamperes)} at "
                    + $"{EnergyText.Volts(first.Microvolts)} drawn just before; it came back after {EnergyText.Time(off)}{again}.")
                {
                    LabelLine = product.Printed(log)?.At.Line,
                    LabelColumn = product.Printed(log)?.At.Column,
                    Expected = "the output stays on with the printed current",
                    Observed = $"off at {EnergyText.Amperes(first.Microamperes)}",
                    NextStep = fails ? null
                        : isWithin == false ? "Repeat it with no more than the printed current: above it a protection may trip."
                        : "State voltage and load with \"at:\", and say which current the port is printed with at this voltage.",
                },
                PlaceOf(log, first.AtUs));
        }
    }
}
