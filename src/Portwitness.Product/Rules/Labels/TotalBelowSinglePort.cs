using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>The printed total is less than one port alone.</summary>
/// <remarks>The tolerance is half a watt or one per cent, whichever is more: common practice, no source.</remarks>
public sealed class TotalBelowSinglePort : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "total-below-single-port",
        Severity = Severity.Caution,
        Title = "The printed total is less than one port alone",
        Clause = "printed label",
        Why = "A product gives at least what one of its ports gives. A smaller total contradicts the port, unless it is meant "
            + "for several ports at once, which the label then does not say.",
        Evidence = "The printed total with its scope, and what is printed for the port.",
        Example = new LabelExample(
            "0x0801912C", "C1 alone gives 65 W, the total is 45 W.",
            Label: "USB-C1: 65W Max\nUSB-C2: 20W Max\nTotal: 45W"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        if (label.Total is not { } total || PrintedPowers.IsOfPortsTogether(label, total))
        {
            return;
        }

        foreach (PrintedOutput output in label.Outputs)
        {
            if (PrintedPowers.Of(output) is { } power && total.Power.Milliwatts < power - PrintedPowers.Tolerance(power))
            {
                hits.Report(
                    this,
                    new Hit(Verdict.Fails, $"{output.Port} alone is {PrintedPowers.Words(output)}; the total is {total.Power}.")
                    {
                        LabelLine = total.At.Line,
                        Expected = $"at least {PrintedPowers.Watts(power)}",
                        Observed = $"{total.Power}",
                    },
                    output.Port);
            }
        }
    }
}
