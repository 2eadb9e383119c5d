using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A range's largest volts times amperes are more than the port's maximum.</summary>
/// <remarks>The tolerance is half a watt or one per cent, whichever is more: common practice, no source.</remarks>
public sealed class RangeCornerExceedsMaximum : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "range-corner-exceeds-maximum",
        Severity = Severity.Note,
        Title = "A range's largest volts times amperes are more than the port's maximum",
        Clause = "printed label",
        Why = "The current of such a range falls near its upper end, which the standard allows (PPS Power Limited). A device "
            + "gets the printed current at lower voltages only.",
        Evidence = "The printed range and the port's printed maximum.",
        Example = new LabelExample(
            "0x0801912C", "21 V times 5 A is 105 W; the port gives 65 W.",
            Label: "USB-C: 5V⎓3A 20V⎓3.25A PPS 3.3-21V⎓5A (65W Max)"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedOutput output in label.Outputs)
        {
            foreach (PrintedRange range in output.Ranges)
            {
                long corner = PrintedPowers.Corner(range);
                if (output.Maximum is { } maximum && corner > maximum.Power.Milliwatts + PrintedPowers.Tolerance(maximum.Power.Milliwatts))
                {
                    hits.Report(
                        this,
                        new Hit(
                            Verdict.Fails,
                            $"\"{range.Text}\" is {PrintedPowers.Watts(corner)} at its upper end; {output.Port} gives {maximum.Power}.")
                        {
                            IsNote = true, LabelLine = range.At.Line,
                        },
                        output.Port);
                }
            }
        }
    }
}
