using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>More than 3 A are printed at 5 V.</summary>
public sealed class PrintedCurrentAbove3AAt5V : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-current-above-3a-at-5v",
        Severity = Severity.Note,
        Title = "More than 3 A are printed at 5 V",
        Clause = "printed label; R3.2v1.1 Tables 10.2 and 10.3 for 3 A at 5 V",
        Why = "USB PD offers 3 A at 5 V. More is printed for other protocols as a rule (common practice, no source), and a PD "
            + "capture does not show it.",
        Evidence = "The printed mode, of a port that can have USB PD.",
        Example = new LabelExample("0x0801912C", "4.5 A at 5 V is not USB PD.", Label: "USB-C: 5V⎓4.5A 9V⎓3A"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedOutput output in label.Outputs.Where(static output => PrintedPowers.MayBePd(output.Port)))
        {
            foreach (PrintedFixed mode in output.Fixed.Where(static mode => mode.Voltage.Millivolts == 5000
                && mode.Current.Milliamperes > PowerRules.PlainCableMilliamperes && Protocols.IsPowerDelivery(mode.Protocol)))
            {
                hits.Report(
                    this,
                    new Hit(Verdict.Fails, $"{output.Port} prints \"{mode.Text}\": above 3 A at 5 V it is hardly USB PD.")
                    {
                        IsNote = true, LabelLine = mode.At.Line,
                    },
                    output.Port);
            }
        }
    }
}
