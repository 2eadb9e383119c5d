using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The printed no-load power is above the limit.</summary>
public sealed class NoLoadAboveLimit : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "no-load-above-limit",
        Severity = Severity.Mismatch,
        Title = "The printed no-load power is above the limit",
        Clause = "printed label; (EU) 2019/1782 Annex II and 10 CFR 430.32(w)",
        Why = "A supply takes its no-load power day and night. Above the limit it may not be sold in the EU or the USA.",
        Evidence = "The printed no-load power, the mains input, and the output power; what kind of supply it is "
            + "decides the limit.",
        Example = new LabelExample(
            "0x0801912C", "0.5 W is more than any limit below 250 W.",
            Label: "INPUT 100-240V~ 50/60Hz 1.5A\nUSB-C: 5V⎓3A 20V⎓3.25A (65W Max)\nNo-load power: 0.5W"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        if (SupplyLimits.Of(label) is not { } supply)
        {
            return;
        }

        foreach (PrintedPerformance figure in label.Performance)
        {
            (int least, int most) = supply.NoLoad();
            if (figure.Power is { } printed && printed.Milliwatts > least)
            {
                bool fails = printed.Milliwatts > most;
                hits.Report(
                    this,
                    new Hit(fails ? Verdict.Fails : Verdict.CannotTell, $"{printed} is printed for a supply of {supply.Power}.")
                    {
                        LabelLine = figure.At.Line,
                        Expected = Phrase.Of($"at most {PrintedPowers.Watts(least)}")
                            + (least < most ? Phrase.Of($" to {PrintedPowers.Watts(most)}, by the kind of output") : ""),
                        Observed = $"{printed}",
                        NextStep = fails ? null : "State whether the outputs work at once at several voltages.",
                    },
                    "");
            }
        }
    }
}
