using Portwitness.Analysis.Findings;
using Portwitness.Labels;

namespace Portwitness.Analysis.Rules.Labels;

/// <summary>Printed watts are not printed volts times amperes.</summary>
/// <remarks>The tolerance is half a watt or one per cent, whichever is more: common practice, no source.</remarks>
public sealed class PowerProductDiffers : PrintedRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "power-product-differs",
        Severity = Severity.Mismatch,
        Title = "Printed watts are not printed volts times amperes",
        Clause = "printed label; (EU) 2025/2052, nameplate power, as the Commission's questions and answers have it",
        Why = "The watts beside a voltage and a current say the same thing a second time. Where they differ, one of the three "
            + "is wrong, and a buyer cannot tell which.",
        Example = new("0x0801912C", "9 V times 2 A is 18 W, not 20 W.", Label: "USB-C: 5V⎓3A(15W) 9V⎓2A(20W)"),
        Category = "label",
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedOutput output in label.Outputs)
        {
            Check(output.Fixed, output.Port, hits);
        }

        foreach (PrintedShare share in label.Combinations.SelectMany(static combination => combination.Split))
        {
            Check(share.Fixed, share.Port, hits);
        }

        foreach (PrintedInput input in label.Inputs.Where(static input => !input.Alternating && input.MinimumVoltage == input.MaximumVoltage))
        {
            if (input.Current is { } current && input.Power is { } power)
            {
                Compare((input.MaximumVoltage * current).Milliwatts, power.Milliwatts, input.Text, input.At.Line, input.Port ?? "", hits);
            }
        }
    }

    private void Check(IEnumerable<PrintedFixed> modes, string port, ILabelHitSink hits)
    {
        foreach (PrintedFixed mode in modes)
        {
            if (mode.Power is { } power)
            {
                Compare((mode.Voltage * mode.Current).Milliwatts, power.Milliwatts, mode.Text, mode.At.Line, port, hits);
            }
        }
    }

    private void Compare(long product, long printed, string text, int line, string port, ILabelHitSink hits)
    {
        if (Math.Abs(product - printed) > PrintedPowers.Tolerance(printed))
        {
            hits.Report(
                this,
                new Hit(Verdict.Fails, $"\"{text}\" is {PrintedPowers.Watts(product)}; {PrintedPowers.Watts(printed)} is printed.")
                {
                    LabelLine = line,
                    Expected = PrintedPowers.Watts(product),
                    Observed = PrintedPowers.Watts(printed),
                },
                port);
        }
    }
}
