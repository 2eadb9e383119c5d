using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The printed average efficiency is below the limit.</summary>
/// <remarks>
/// The formulae are those of the tables; which of their columns is which is from memory, so only what is below all of them fails.
/// No floating point holds a quantity here but the logarithm of the formula.
/// </remarks>
public sealed class EfficiencyBelowLimit : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "efficiency-below-limit",
        Severity = Severity.Mismatch,
        Title = "The printed average efficiency is below the limit",
        Clause = "printed label; (EU) 2019/1782 Annex II and 10 CFR 430.32(w), which have the same formulae up to 250 W",
        Why = "An external supply below the limit may not be sold in the EU or the USA. The limit depends on the output power, "
            + "and on whether the output is of low voltage or several voltages at once.",
        Evidence = "The printed average efficiency, the mains input, and the output power; what kind of supply it "
            + "is decides the limit.",
        Example = new LabelExample(
            "0x0801912C", "A 65 W supply of one output needs 88 %.",
            Label: "INPUT 100-240V~ 50/60Hz 1.5A\nUSB-C: 5V⎓3A 20V⎓3.25A (65W Max)\nAverage active efficiency: 82%"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        if (SupplyLimits.Of(label) is not { } supply)
        {
            return;
        }

        foreach (PrintedPerformance figure in label.Performance.Where(static figure => figure.Kind == PerformanceKind.AverageEfficiency))
        {
            (double least, double most) = supply.Efficiency();
            double printed = figure.PartsPerMillion!.Value / 1_000_000d;
            if (printed < most)
            {
                bool fails = printed < least;
                hits.Report(
                    this,
                    new Hit(fails ? Verdict.Fails : Verdict.CannotTell, $"{SupplyLimits.Percent(printed)} is printed for a supply of {supply.Power}.")
                    {
                        LabelLine = figure.At.Line,
                        Expected = Phrase.Of($"at least {SupplyLimits.Percent(least)}")
                            + (least < most ? Phrase.Of($" to {SupplyLimits.Percent(most)}, by the kind of output") : ""),
                        Observed = $"{SupplyLimits.Percent(printed)}",
                        NextStep = fails ? null : "State the voltage that the efficiency is printed for, and whether the outputs work at once.",
                    },
                    "");
            }
        }
    }
}
