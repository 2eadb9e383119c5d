using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Energy;

/// <summary>The measured no-load power of a mains supply is above the limit.</summary>
public sealed class AdapterNoLoadAboveLimit : EnergyRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "adapter-no-load-above-limit",
        Severity = Severity.Mismatch,
        Title = "The measured no-load power of a mains supply is above the limit",
        Clause = "printed label; (EU) 2019/1782 Annex II and 10 CFR 430.32(w)",
        Why = "A supply takes its no-load power day and night. Above the limit it may not be sold in the EU or the USA.",
        Evidence = "The power taken without a load, under \"adapter:\", the rated output, and the meter's accuracy.",
        Example = new ProductExample(
            "0x0801912C", "A 65 W supply may take 0.21 W; 0.4 W were measured.",
            Members: """
            adapter:
              - {at: 20V 3.25A, no_load_w: 0.4, accuracy: 1%}
            """),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(ProductEnergy product, IProductHitSink hits)
    {
        foreach (AdapterRun run in product.Adapter)
        {
            if (run.NoLoadMilliwatts is not { } taken)
            {
                continue;
            }

            (int least, int most) = run.Limits().NoLoad();
            long off = run.OfNoLoad(taken);
            if ((product.Decision.TakesConditionalPass(run.AccuracyPpm is not null) ? taken : taken + off) <= least)
            {
                continue;
            }

            bool fails = taken - off > most;
            hits.Report(
                this,
                new Hit(
                    fails ? Verdict.Fails : Verdict.CannotTell,
                    $"{PrintedPowers.Watts(taken)}, give or take {PrintedPowers.Watts(off)}, are taken without a load by a supply of {run.Power}.")
                {
                    Expected = Phrase.Of($"at most {PrintedPowers.Watts(least)}") + (least < most ? Phrase.Of($" to {PrintedPowers.Watts(most)}, by the kind of output") : ""),
                    Observed = $"{PrintedPowers.Watts(taken)}",
                    NextStep = fails ? null : "Measure the average of five minutes or more with a more exact meter, without a cable in the port.",
                },
                new ProductPlace("", []));
        }
    }
}
