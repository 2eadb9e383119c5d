using Portwitness.Analysis.Evidence;
using Portwitness.Product.Loads;

namespace Portwitness.Product.Tests.Loads;

/// <summary>Load effect, output resistance and cables. The figures are reckoned by hand; formulae: ΔV/V, ΔV/ΔI, (V1 - V2)/I.</summary>
public class LoadLineTests
{
    // 20.10 V at 0.325 A and 19.86 V at 3.25 A: 1.20 % of 20 V, 82 mΩ.
    [Fact]
    public void TwoLoads_GiveEffectAndResistance()
    {
        LoadLine line = Of("{port: C, at: 20V 3.25A, measured: 20.10V 0.325A, measured_at: source}", "{port: C, at: 20V 3.25A, measured: 19.86V 3.25A, measured_at: source}").LoadLines.Single();

        (line.EffectPpm, line.Microohms).Should().Be((12_000, 82_051));
    }

    // A port that makes up for its cable has less than none.
    [Fact]
    public void VoltageThatRises_IsANegativeResistance() =>
        Of("{port: C, at: 5V 3A, measured: 5.05V 0.5A, measured_at: source}", "{port: C, at: 5V 3A, measured: 5.15V 3A, measured_at: source}").LoadLines.Single().Microohms.Should().Be(-40_000);

    // Behind a cable, at one current, or with other ports in use nothing is said.
    [Theory]
    [InlineData("{port: C, at: 5V 3A, measured: 5.05V 0.5A}", "{port: C, at: 5V 3A, measured: 4.95V 3A}")]
    [InlineData("{port: C, at: 5V 3A, measured: 5.05V 2.9A, measured_at: source}", "{port: C, at: 5V 3A, measured: 4.95V 3A, measured_at: source}")]
    [InlineData("{port: C, at: 5V 3A, measured: 5.05V 0.5A, measured_at: source}", "{port: C, at: 5V 3A, in_use: [C, A], measured: 4.95V 3A, measured_at: source}")]
    public void WhatIsNotComparable_GivesNothing(string one, string other) => Of(one, other).LoadLines.Should().BeEmpty();

    // 5.08 V and 4.74 V with 3.00 A: 113.3 mΩ; each V ± 3 mV, I ± 6 mA: U = 1.7 mΩ.
    [Fact]
    public void CableByTwoPoints_HasItsUncertainty()
    {
        CableLoss cable = Of(
            "{port: C, at: 5V 3A, measured: 5.08V 3A, measured_at: source, accuracy: {volts: 3mV, amps: 6mA}}",
            "{port: C, at: 5V 3A, measured: 4.74V 3A, measured_at: sink, accuracy: {volts: 3mV, amps: 6mA}}").Cables.Single();

        (cable.Microohms, cable.IsByTwoCurrents).Should().Be((113_333, false));
        cable.ExpandedMicroohms.Should().BeInRange(1_650, 1_750);
    }

    // Differences of 0.059 V at 0.50 A and 0.339 V at 3.00 A: 112.0 mΩ, whatever the meters differ by.
    [Fact]
    public void CableByTwoCurrents_LeavesOutWhatTheMetersDifferBy()
    {
        CableLoss cable = Of(
            "{port: C, at: 5V 3A, measured: 5.100V 0.5A, measured_at: source}", "{port: C, at: 5V 3A, measured: 5.041V 0.5A, measured_at: sink}",
            "{port: C, at: 5V 3A, measured: 5.080V 3A, measured_at: source}", "{port: C, at: 5V 3A, measured: 4.741V 3A, measured_at: sink}").Cables.Single();

        (cable.Microohms, cable.IsByTwoCurrents).Should().Be((112_000, true));
    }

    [Theory]
    [InlineData("4.24V", "accuracy: {volts: 3mV, amps: 6mA}", "Fails")] // 280 mΩ
    [InlineData("4.325V", "accuracy: {volts: 3mV, amps: 6mA}", "CannotTell")] // 251.7 mΩ
    [InlineData("4.24V", "for: 1min", "CannotTell")] // of meters of which nothing is stated
    [InlineData("4.4V", "accuracy: {volts: 3mV, amps: 6mA}", "")]
    public void CableThatLosesTooMuch_IsACaution(string sink, string meter, string verdict)
    {
        ProductAnalysis analysis = Of($"{{port: C, at: 5V 3A, measured: 5.08V 3A, measured_at: source, {meter}}}", $"{{port: C, at: 5V 3A, measured: {sink} 3A, measured_at: sink, {meter}}}");

        string.Join(",", analysis.Findings.Where(static one => one.Rule == "cable-resistance-too-large").Select(static one => $"{one.Verdict}")).Should().Be(verdict);
        analysis.Findings.Where(static one => one.Rule == "cable-resistance-too-large").Should().NotContain(static one => one.Severity != Severity.Caution);
    }

    private static ProductAnalysis Of(params string[] loads) => ProductRun.Typed($"product: x\nlabel: \"USB-C: 5V⎓3A 20V⎓3.25A\"\nloads: [{string.Join(", ", loads)}]\n");
}
