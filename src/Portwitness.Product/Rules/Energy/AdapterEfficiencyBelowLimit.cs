using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Energy;

/// <summary>The measured average efficiency of a mains supply is below the limit.</summary>
/// <remarks>The formulae are those of the tables; which of their columns is which is from memory, so only what is below all of them fails.</remarks>
public sealed class AdapterEfficiencyBelowLimit : EnergyRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "adapter-efficiency-below-limit",
        Severity = Severity.Mismatch,
        Title = "The measured average efficiency of a mains supply is below the limit",
        Clause = "printed label; (EU) 2019/1782 Annex II and 10 CFR 430.32(w), which have the same formulae up to 250 W",
        Why = "The average of the efficiencies at 25, 50, 75 and 100 % load is what external supplies are sold by in the EU and the USA.",
        Evidence = "Input and output power at the four loads, each within two per cent of the rated current, under \"adapter:\", and the meters' accuracy.",
        Example = new ProductExample(
            "0x0801912C", "A 65 W supply needs 88 %; 82 % were measured.",
            Members: """
            adapter:
              - at: 20V 3.25A
                accuracy: 0.2%
                points:
                  - {load: 25%, input_w: 20, output_w: 16.25}
                  - {load: 50%, input_w: 39.5, output_w: 32.5}
                  - {load: 75%, input_w: 59, output_w: 48.75}
                  - {load: 100%, input_w: 79, output_w: 65}
            """),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(ProductEnergy product, IProductHitSink hits)
    {
        foreach (AdapterRun run in product.Adapter.Where(static run => run.Points.Count > 0))
        {
            if (run.AveragePpm is not { } average)
            {
                hits.Report(
                    this,
                    new Hit(Verdict.CannotTell, $"At {run.At} no point was measured at {Phrase.Join(", ", run.MissingLoads.Select(static load => Phrase.Of($"{load}")))} % of {run.Rated}.")
                    {
                        Expected = "points at 25, 50, 75 and 100 %, each within two per cent of the rated current", NextStep = "Measure the missing points.",
                    },
                    new ProductPlace("", []));
                continue;
            }

            SupplyLimits supply = run.Limits();
            (double least, double most) = supply.Efficiency();
            double measured = average / 1_000_000d;
            double off = run.UncertaintyPpm!.Value / 1_000_000d;
            if ((product.Decision.TakesConditionalPass(run.AccuracyPpm is not null) ? measured : measured - off) >= most)
            {
                continue;
            }

            bool fails = measured + off < least;
            hits.Report(
                this,
                new Hit(
                    fails ? Verdict.Fails : Verdict.CannotTell,
                    $"At {run.At} the mean of the four loads is {SupplyLimits.Percent(measured)}, give or take {SupplyLimits.Percent(off)}, for {supply.Power}"
                    + $"{(run.AccuracyPpm is null ? "; the meters are taken to be off by 1 % at most, as nothing is stated" : "")}.")
                {
                    Expected = Phrase.Of($"at least {SupplyLimits.Percent(least)}") + (least < most ? Phrase.Of($" to {SupplyLimits.Percent(most)}, by the kind of output") : ""),
                    Observed = $"{SupplyLimits.Percent(measured)}",
                    NextStep = fails ? null : "State the meters' accuracy (\"accuracy: 0.2%\"), or measure more exactly.",
                },
                new ProductPlace("", []));
        }
    }
}
