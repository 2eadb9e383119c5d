using System.Text;
using Portwitness.Analysis.Phrases;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Tests.Decisions;

/// <summary>What is measured near a limit, by both rules: nobody is accused within the uncertainty, and guarded acceptance believes nobody there.</summary>
public class DecisionRuleTests
{
    private const string Inside = "limit-within-uncertainty";

    // 5 V within 4.75 to 5.5 V (vSafe5V, R3.2v1.1, Table 7.23); ±0.2 % of 4.76 V are 9.52 mV.
    [Theory]
    [InlineData("4.77V", "holds", "holds")]
    [InlineData("4.755V", "holds", "cannot tell")]
    [InlineData("4.745V", "cannot tell", "cannot tell")]
    [InlineData("4.73V", "fails", "fails")]
    public void Load_IsDecidedByTheRule(string measured, string simple, string guarded)
    {
        string product = $"product: x\nlabel: \"USB-A: 5V⎓3A\"\nloads: [{{port: A, at: 5V 3A, measured: {measured} 3A, for: 10min, accuracy: {{volts: 0.2%, amps: 0.1%}}, measured_at: source}}]\n";

        Verdict(product, DecisionRule.Simple).Should().Be(simple);
        Verdict(product, DecisionRule.Guarded).Should().Be(guarded);
    }

    // 2 A for 3 h 12 min are 6400 mAh; the meter may be off by 0.2 %.
    [Theory]
    [InlineData(11_600, "holds", "holds")]
    [InlineData(11_525, "holds", "cannot tell")]
    [InlineData(11_515, "cannot tell", "cannot tell")]
    [InlineData(11_400, "fails", "fails")]
    public void RatedCapacity_IsDecidedByTheRule(int seconds, string simple, string guarded)
    {
        Capacity(seconds, DecisionRule.Simple).Should().Be(simple);
        Capacity(seconds, DecisionRule.Guarded).Should().Be(guarded);
    }

    // Behind a cable a low voltage says nothing of the port; it is in no table of decisions.
    [Fact]
    public void WhatACableMayHaveLost_IsNoDecision()
    {
        ProductAnalysis analysis = Of(
            "product: x\nlabel: \"USB-A: 5V⎓3A\"\nloads: [{port: A, at: 5V 3A, measured: 4.70V 3A, for: 10min, accuracy: {volts: 0.2%, amps: 0.1%}}, {port: A, at: 5V 3A, measured: 4.9V 3A, for: 10min}]\n",
            DecisionRule.Guarded);

        analysis.Decisions.Select(static one => one.Value).Should().Equal(4_900_000);
    }

    [Fact]
    public void GuardedRule_SaysWhatIsNear() => Of(
        "product: x\nlabel: \"USB-A: 5V⎓3A\"\nloads: [{port: A, at: 5V 3A, measured: 4.755V 3A, for: 10min, accuracy: {volts: 0.2%, amps: 0.1%}, measured_at: source}]\n", DecisionRule.Guarded)
        .Findings.Where(static one => one.Rule == Inside).Select(static one => PhraseText.Of(one.Detail)).Should().Equal(
            "mean VBUS under load, 5 V: 4.755 V ± 0.01 V were read, and 4.75 V to 5.5 V are allowed: inside, by less than the uncertainty (conditional pass).");

    private static string Verdict(string product, DecisionRule rule) => Word(Of(product, rule));

    private static string Capacity(int seconds, DecisionRule rule)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            """
            product: x
            label: "Battery: 10000mAh 3.7V 37Wh\nRated capacity: 6400mAh (5V⎓2A)"
            discharges: [{port: A, at: 5V 2A, file: log.csv, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source, cut_off: 4.5V, longest_step: 1h}]
            """,
            null, decision: rule);
        check.OpenLog().Write(Encoding.UTF8.GetBytes("time (s),volts,amps\n"
            + string.Concat(Enumerable.Range(0, (seconds / 1800) + 1).Select(static step => $"{step * 1800},5,2\n")) + $"{seconds},5,2\n{seconds + 1},4.4,2\n{seconds + 11},4.4,2\n"));
        check.CloseLog();
        return check.Complete().Statements.Single(static one => one.Claim.ToString().Contains("come out", StringComparison.Ordinal)).Verdict switch
        {
            Analysis.Evidence.Verdict.Holds => "holds",
            Analysis.Evidence.Verdict.Fails => "fails",
            _ => "cannot tell",
        };
    }

    private static string Word(ProductAnalysis analysis) => analysis.Verdict switch
    {
        Analysis.Evidence.Verdict.Holds => "holds",
        Analysis.Evidence.Verdict.Fails => "fails",
        _ => "cannot tell",
    };

    private static ProductAnalysis Of(string product, DecisionRule rule)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", product, null, decision: rule);
        return check.Complete();
    }
}
