using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A printed current is more than USB PD has.</summary>
public sealed class PrintedCurrentAbove5A : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "printed-current-above-5a",
        Severity = Severity.Note,
        Title = "A printed current is more than USB PD has",
        Clause = "printed label; R3.2v1.1 10.2.3.3 for the connector's 5 A",
        Why = "USB PD ends at 5 A, as the connector does. A larger current belongs to another protocol with cables of its own, "
            + "and a PD capture does not show it.",
        Evidence = "The printed mode, of a port that can have USB PD.",
        Example = new LabelExample("0x0801912C", "6 A is more than the connector's 5 A.", Label: "USB-C: 5V⎓3A 10V⎓6A"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedOutput output in label.Outputs.Where(static output => PrintedPowers.MayBePd(output.Port)))
        {
            IEnumerable<(string Text, Place At, int Milliamperes)> ratings =
            [
                .. output.Fixed.Select(static mode => (mode.Text, mode.At, mode.Current.Milliamperes)),
                .. output.Ranges.Select(static range => (range.Text, range.At, range.Current.Milliamperes)),
            ];
            foreach ((string text, Place at, _) in ratings.Where(static rating => rating.Milliamperes > PowerRules.ConnectorMilliamperes))
            {
                hits.Report(
                    this,
                    new Hit(Verdict.Fails, $"{output.Port} prints \"{text}\": more than 5 A is not USB PD.") { IsNote = true, LabelLine = at.Line },
                    output.Port);
            }
        }
    }
}
