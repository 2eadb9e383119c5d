using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A printed voltage is none of USB PD.</summary>
public sealed class VoltageOutsideStandard : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "voltage-outside-standard",
        Severity = Severity.Note,
        Title = "A printed voltage is none of USB PD",
        Clause = "printed label; R3.2v1.1 10.2.3 for the voltages of USB PD",
        Why = "USB PD has fixed supplies of 5, 9, 15, 20, 28, 36 and 48 V, and had 12 V. Another voltage belongs to another "
            + "protocol, and a PD capture does not show it.",
        Evidence = "The printed mode, of a port that can have USB PD, and no other protocol printed for it.",
        Example = new LabelExample("0x0801912C", "10 V is no fixed voltage of USB PD.", Label: "USB-C: 5V⎓3A 10V⎓4A"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedOutput output in label.Outputs.Where(static output => PrintedPowers.MayBePd(output.Port)))
        {
            foreach (PrintedFixed mode in output.Fixed.Where(static mode => Protocols.IsPowerDelivery(mode.Protocol)
                && mode.Voltage.Millivolts is not (5000 or 9000 or 12000 or 15000 or 20000 or 28000 or 36000 or 48000)))
            {
                hits.Report(
                    this,
                    new Hit(Verdict.Fails, $"{output.Port} prints \"{mode.Text}\": not USB PD, so its capture does not show it.")
                    {
                        IsNote = true, LabelLine = mode.At.Line, Observed = $"{mode.Voltage}",
                    },
                    output.Port);
            }
        }
    }
}
