using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A port's printed maximum is more than any of its ratings.</summary>
/// <remarks>The tolerance is half a watt or one per cent, whichever is more: common practice, no source.</remarks>
public sealed class PortMaximumAboveRatings : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "port-maximum-above-ratings",
        Severity = Severity.Caution,
        Title = "A port's printed maximum is more than any of its ratings",
        Clause = "printed label",
        Why = "The largest of volts times amperes is what a device can draw. Watts that no rating reaches are promised without "
            + "saying at which voltage.",
        Evidence = "The port's printed maximum, and no unread words that may be another mode.",
        Example = new LabelExample("0x0801912C", "No rating of the port reaches 65 W.", Label: "USB-C: 5V⎓3A 20V⎓2.25A (65W Max)"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedOutput output in label.Outputs)
        {
            long most = Math.Max(
                PrintedPowers.Largest(output.Fixed)?.Milliwatts ?? 0,
                output.Ranges.Select(PrintedPowers.Corner).DefaultIfEmpty().Max());
            if (output.Maximum is { } maximum && most > 0 && !output.Incomplete && !label.MayRateMore
                && most < maximum.Power.Milliwatts - PrintedPowers.Tolerance(maximum.Power.Milliwatts))
            {
                hits.Report(
                    this,
                    new Hit(Verdict.Fails, $"{output.Port} is rated {PrintedPowers.Watts(most)} at most; its printed maximum is {maximum.Power}.")
                    {
                        LabelLine = maximum.At.Line,
                        Expected = $"at most {PrintedPowers.Watts(most)}, or a rating that reaches it",
                        Observed = $"{maximum.Power}",
                    },
                    output.Port);
            }
        }
    }
}
