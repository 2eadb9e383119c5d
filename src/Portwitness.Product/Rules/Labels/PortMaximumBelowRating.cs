using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A port's printed maximum is less than one of its ratings.</summary>
/// <remarks>The tolerance is half a watt or one per cent, whichever is more: common practice, no source.</remarks>
public sealed class PortMaximumBelowRating : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "port-maximum-below-rating",
        Severity = Severity.Caution,
        Title = "A port's printed maximum is less than one of its ratings",
        Clause = "printed label",
        Why = "A port cannot give more than its maximum, so a rating above it is never reached, or the maximum is that of "
            + "another arrangement.",
        Evidence = "The port's printed maximum and modes.",
        Example = new LabelExample(
            "0x0801912C", "15 V times 3 A is 45 W; 30 W is the printed maximum.",
            Label: "USB-C: 5V⎓3A 15V⎓3A (30W Max)"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedOutput output in label.Outputs)
        {
            if (output.Maximum is { } maximum && PrintedPowers.Largest(output.Fixed) is { } largest
                && largest.Milliwatts > maximum.Power.Milliwatts + PrintedPowers.Tolerance(maximum.Power.Milliwatts))
            {
                hits.Report(
                    this,
                    new Hit(
                        Verdict.Fails,
                        $"{output.Port} is rated \"{largest.Mode.Text}\", {PrintedPowers.Watts(largest.Milliwatts)}; its maximum is {maximum.Power}.")
                    {
                        LabelLine = maximum.At.Line,
                        Expected = $"at least {PrintedPowers.Watts(largest.Milliwatts)}",
                        Observed = $"{maximum.Power}",
                    },
                    output.Port);
            }
        }
    }
}
