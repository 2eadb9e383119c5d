using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

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
        Evidence = "Volts, amperes and watts of one mode, printed side by side.",
        Example = new LabelExample("0x0801912C", "9 V times 2 A is 18 W, not 20 W.", Label: "USB-C: 5V⎓3A(15W) 9V⎓2A(20W)"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        foreach (PrintedOutput output in label.Outputs)
        {
            // "5V⎓3A (45W)" with nothing else may mean the port's maximum.
            bool isOnly = output is { Fixed.Length: 1, Ranges.IsEmpty: true, Maximum: null };
            Check(output.Fixed, output.Port, isOnly, hits);
        }

        foreach (PrintedShare share in label.Combinations.SelectMany(static combination => combination.Split))
        {
            Check(share.Fixed, share.Port, isOnly: false, hits);
        }

        foreach (PrintedInput input in label.Inputs.Where(static input => !input.Alternating && input.MinimumVoltage == input.MaximumVoltage))
        {
            if (input.Current is { } current && input.Power is { } power)
            {
                Compare(
                    (input.MaximumVoltage * current).Milliwatts, power.Milliwatts, input.Text, input.At.Line, input.Port ?? "",
                    isClear: true, hits);
            }
        }
    }

    private void Check(IEnumerable<PrintedFixed> modes, string port, bool isOnly, ILabelHitSink hits)
    {
        foreach (PrintedFixed mode in modes)
        {
            if (mode.Power is { } power)
            {
                bool isClear = !isOnly || mode.Text.Contains('W', StringComparison.OrdinalIgnoreCase);
                Compare((mode.Voltage * mode.Current).Milliwatts, power.Milliwatts, mode.Text, mode.At.Line, port, isClear, hits);
            }
        }
    }

    private void Compare(long product, long printed, string text, int line, string port, bool isClear, ILabelHitSink hits)
    {
        if (Math.Abs(product - printed) > PrintedPowers.Tolerance(printed))
        {
            hits.Report(
                this,
                new Hit(
                    isClear ? Verdict.Fails : Verdict.CannotTell,
                    $"\"{text}\" is {PrintedPowers.Watts(product)}; {PrintedPowers.Watts(printed)} is printed.")
                {
                    LabelLine = line,
                    Expected = $"{PrintedPowers.Watts(product)}",
                    Observed = $"{PrintedPowers.Watts(printed)}",
                    NextStep = isClear ? null : "Ask whether the printed watts are those of the rating or of the port.",
                },
                port);
        }
    }
}
