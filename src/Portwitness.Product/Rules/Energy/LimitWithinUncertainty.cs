using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Rules.Energy;

/// <summary>By guarded acceptance, a reading that is inside its limits by less than its uncertainty leaves it open.</summary>
public sealed class LimitWithinUncertainty : MeasuredDecisionRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "limit-within-uncertainty",
        Severity = Severity.Caution,
        Title = "A reading is inside its limit by less than its uncertainty",
        Clause = "common practice, no source that was read: guarded acceptance with the expanded uncertainty as guard band (JCGM 106 and ILAC-G8, second-hand)",
        Why = "By simple acceptance up to half of the units whose reading is just inside are outside. Whoever has to be sure keeps a distance from the limit.",
        Evidence = "\"--guard\", and something measured that has limits: VBUS under a contract or a load, a rated capacity, a mains supply.",
        Example = new ProductExample(
            "0x0801912C", "4.76 V are inside 4.75 V by less than the meter is exact.",
            Members: "label: \"USB-C: 5V⎓3A\"\nloads: [{port: C, at: 5V 3A, measured: 4.76V 3A, for: 10min, accuracy: {volts: 0.5%, amps: 0.5%}, measured_at: source}]")
        {
            Guarded = true,
        },
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(MeasuredDecision measured, DecisionRule decision, IProductHitSink hits)
    {
        if (decision != DecisionRule.Guarded || measured.Word != DecisionWord.ConditionalPass)
        {
            return;
        }

        Phrase limits = (measured.Least, measured.Most) switch
        {
            ({ } least, { } most) => $"{new Quantity(least, measured.Unit)} to {new Quantity(most, measured.Unit)}",
            ({ } least, _) => $"at least {new Quantity(least, measured.Unit)}",
            (_, { } most) => $"at most {new Quantity(most, measured.Unit)}",
            _ => Phrase.Empty,
        };
        Phrase read = $"{new Quantity(measured.Value, measured.Unit)}";
        hits.Report(
            this,
            new Hit(
                Verdict.CannotTell,
                Phrase.Of($"{measured.About}: ") + read + Phrase.Of($" ± {new Quantity(measured.Guard, measured.Unit)} were read, and ") + limits
                    + " are allowed: inside, by less than the uncertainty (conditional pass).")
            {
                LabelLine = measured.LabelLine, Expected = limits, Observed = read,
                NextStep = "Measure with a more exact meter, or decide by simple acceptance (without \"--guard\").",
            },
            new ProductPlace(measured.Port, measured.InUse) { File = measured.File });
    }
}
