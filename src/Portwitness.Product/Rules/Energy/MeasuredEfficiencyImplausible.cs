using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Rules.Energy;

/// <summary>What came out is an unusual part of what the cells are said to hold.</summary>
/// <remarks>65 % to 97 %: common practice, no source.</remarks>
public sealed class MeasuredEfficiencyImplausible : EnergyRule
{
    private const long LeastPpm = 650_000;
    private const long MaxPpm = 970_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "measured-efficiency-implausible",
        Severity = Severity.Caution,
        Title = "What came out is an unusual part of what the cells are said to hold",
        Clause = "common practice, no source: 65 % to 97 %",
        Why = "No converter gives more than its cells hold, and few lose a third of it. Far outside, the cells are others than is printed, the pack "
            + "was not full, or the measurement is wrong.",
        Evidence = "A log of a whole discharge, the meter's accuracy, and the energy of the cells, printed or under \"battery:\".",
        Example = new ProductExample(
            "0x0801912C", "20 Wh came out of cells that are printed with 37 Wh.",
            Members: """
            label: |
              Battery: 10000mAh 3.7V 37Wh
              USB-C: 5V⎓3A
            discharges:
              - {port: C, at: 5V 2A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source, cut_off: 4.5V, longest_step: 1h}
            """,
            Log: "time (s),volts,amps\n0,5,2\n3600,5,2\n7200,5,2\n7201,4.4,2\n7211,4.4,2\n"),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(ProductEnergy product, IProductHitSink hits)
    {
        foreach (MeasuredLog log in product.Logs.Where(static log => log.EverLoaded && log.Log.BegunFull != false && !log.UnitsAssumed))
        {
            if (product.Efficiency(log) is not { } share)
            {
                continue;
            }

            bool tooMuch = share.Value > MaxPpm;
            bool tooLittle = share.Value < LeastPpm && log.RanOut;
            if (!tooMuch && !tooLittle)
            {
                continue;
            }

            bool isSure = tooMuch ? share.Least > MaxPpm : share.Most < LeastPpm;
            hits.Report(
                this,
                new Hit(
                    isSure ? Verdict.Fails : Verdict.CannotTell,
                    $"{Named(log)}: {EnergyText.Between(log.Energy, EnergyText.Energy)} came out; the cells hold {EnergyText.Energy(product.Cells!.MicrowattHours)} "
                    + $"({product.Cells.Basis}), so that it is {EnergyText.Percent(share.Value)} of it. Meter: {log.Meter.Text()}.")
                {
                    LabelLine = product.Cells.LabelLine,
                    Expected = "65 % to 97 %; usual is 78 % to 92 %",
                    Observed = $"{EnergyText.Percent(share.Value)}",
                    NextStep = isSure ? null : "Discharge again, from full, with a more exact meter and a log without gaps.",
                },
                PlaceOf(log));
        }
    }
}
