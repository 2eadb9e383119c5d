using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Product.Claims;

namespace Portwitness.Product.Tests.Claims;

/// <summary>What a box says against energy, power, a scale and a ruler. Arithmetic; what losses take is common practice, no source.</summary>
public class ClaimTests
{
    // Three cells of 4500 mAh 3.6 V: 48.6 Wh.
    private const string Cells = "battery: {cells: {series: 3, capacity_mah: 4500, nominal_v: 3.6}, mass_g: 348, size_mm: [148, 62, 26], fills: [{device: handset, energy_wh: 19.35}]}";

    [Theory]

    // 48.6 Wh / 30 W are 97.2 min; half of it 48.6 min.
    [InlineData("kind: time, time: 97min, input: 30W", "fails")]
    [InlineData("kind: time, time: 98min, input: 30W", "cannot tell")]
    [InlineData("kind: time, time: 48min, share: 50%, input: 30W", "fails")]
    [InlineData("kind: time, time: 49min, share: 50%, input: 30W", "cannot tell")]

    // Without a power that is said, the printed input: 9 V 3 A are 27 W, 108 min.
    [InlineData("kind: time, time: 107min", "fails")]
    [InlineData("kind: time, time: 109min", "cannot tell")]

    // 10 W for 4.86 h are 48.6 Wh.
    [InlineData("kind: time, time: 292min, output: 10W", "fails")]
    [InlineData("kind: time, time: 291min, output: 10W", "cannot tell")]

    // 2.51 x 19.35 Wh are 48.57 Wh, 2.52 are 48.76 Wh.
    [InlineData("kind: fills, fills: 2.52, device_wh: 19.35", "fails")]
    [InlineData("kind: fills, fills: 2.51, device_wh: 19.35", "cannot tell")]
    [InlineData("kind: fills, fills: 2.52, device: handset", "fails")]
    [InlineData("kind: fills, fills: 2.52, device: tablet", "cannot tell")]
    [InlineData("kind: mass, mass_g: 340", "")]
    [InlineData("kind: mass, mass_g: 420", "cannot tell")]
    [InlineData("kind: size, size_mm: [26, 62.5, 147]", "")]
    [InlineData("kind: size, size_mm: [140, 62, 26]", "cannot tell")]
    [InlineData("kind: power, watts: 65, port: C", "fails")]
    [InlineData("kind: power, watts: 45, port: C", "cannot tell")]

    // C 45 W and A 15 W together.
    [InlineData("kind: power, watts: 61", "fails")]
    [InlineData("kind: power, watts: 60", "cannot tell")]
    public void Claim_IsHeldAgainstWhatIsKnown(string claim, string told) => Told(
        $"label: \"Input: USB-C: 9V 3A\\nOutput: USB-C: 5V 3A, 15V 3A\\nUSB-A: 5V 3A\"\n{Cells}\nclaims: [{{text: said so, source: box, {claim}}}]")
        .Should().Equal(told.Length == 0 ? [] : [told]);

    // 48.6 Wh / 27 W are 108 min; through both ports at once 54 W, 54 min. A line that was not read may be a faster input.
    [Theory]
    [InlineData("Input: USB-C1: 9V 3A\\nInput: USB-C2: 9V 3A", "53min", Verdict.Fails)]
    [InlineData("Input: USB-C1: 9V 3A\\nInput: USB-C2: 9V 3A", "55min", Verdict.CannotTell)]
    [InlineData("Zorvikport: 20V 5A\\nInput: USB-C1: 9V 3A", "53min", Verdict.CannotTell)]
    public void TimeToCharge_IsHeldAgainstAllInputsAtOnce(string label, string time, Verdict verdict) => ProductRun.Typed(
        $"product: x\nlabel: \"{label}\"\n{Cells}\nclaims: [{{text: full, kind: time, time: {time}}}]\n").Claims.Single().Verdict.Should().Be(verdict);

    // The quotient of printed capacities is no number of fills: 20,000 / 5,000 mAh is 4.0, and 72 Wh x 0.88 x 0.87 / 19.35 Wh is 2.85.
    // 3.5 x 19.35 Wh are 67.7 Wh of 72 Wh: possible without any loss, and more than 15 % beyond what is usual.
    [Theory]
    [InlineData("4.0", Verdict.Fails, false)]
    [InlineData("3.5", Verdict.CannotTell, true)]
    [InlineData("2.85", Verdict.CannotTell, false)]
    public void QuotientOfCapacities_IsNoNumberOfFills(string fills, Verdict verdict, bool isUnusual)
    {
        JudgedClaim judged = ProductRun.Typed(
            $"product: x\nbattery: {{cells: {{series: 4, capacity_mah: 5000, nominal_v: 3.6}}}}\nclaims: [{{text: fills, kind: fills, fills: {fills}, device_wh: 19.35}}]\n").Claims.Single();

        judged.Verdict.Should().Be(verdict);
        PhraseText.Of(judged.Evidence).Contains("80 to 90 %", StringComparison.Ordinal).Should().Be(isUnusual);
    }

    [Theory]
    [InlineData("kind: time, time: 1h", "nobody says what the cells hold")]
    [InlineData("kind: fills, fills: 2, device_wh: 10", "nobody says what the cells hold")]
    [InlineData("kind: mass, mass_g: 340", "nobody says what a scale shows")]
    [InlineData("kind: size, size_mm: [1, 2, 3]", "nobody says what a ruler shows")]
    [InlineData("kind: power, watts: 500", "the product was not captured")]
    public void WhatNobodySays_CannotBeTold(string claim, string told)
    {
        ProductAnalysis analysis = ProductRun.Typed($"product: x\nparts: [{{part: Q1, node: C, volts: 30V}}]\nclaims: [{{text: said so, {claim}}}]\n");

        analysis.Claims.Single().Verdict.Should().Be(Verdict.CannotTell);
        PhraseText.Of(analysis.Claims.Single().Evidence).Should().Be(told);
        analysis.Claims.Single().NextStep.IsEmpty.Should().BeFalse();
    }

    // 20 V 3.25 A were captured.
    [Theory]
    [InlineData("65", Verdict.Holds)]
    [InlineData("66", Verdict.CannotTell)]
    public void PowerThatIsOffered_Holds(string watts, Verdict verdict)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", $"product: x\nclaims: [{{text: 65 W, kind: power, watts: {watts}, port: C}}]\ncaptures: [{{file: c.words, port: C}}]\n", null);
        check.Open("c.words").Write("0x0801912C 0x0002D12C 0x0004B12C 0x00064145"u8.ToArray());
        check.Close();

        check.Complete().Claims.Single().Verdict.Should().Be(verdict);
    }

    // 50 W for an hour went in, 48.6 Wh are claimed within an hour, and within 40 minutes at 100 W.
    [Theory]
    [InlineData("60min", Verdict.Holds)]
    [InlineData("40min", Verdict.CannotTell)]
    [InlineData("29min", Verdict.Fails)]
    public void MeasuredCharge_Settles(string time, Verdict verdict)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            $$"""
            product: x
            {{Cells}}
            claims: [{text: full, kind: time, time: {{time}}, input: 100W}]
            discharges: [{port: C, at: 20V 2.5A, file: log.csv, kind: charge, accuracy: {volts: 0.1%, amps: 0.1%}, longest_step: 1h}]
            """, null);
        check.OpenLog().Write(Encoding.UTF8.GetBytes("time (s),volts (V),amps (A)\n0,20,2.5\n1800,20,2.5\n3600,20,2.5\n3601,20,0\n3620,20,0\n"));
        check.CloseLog();

        check.Complete().Claims.Single().Verdict.Should().Be(verdict);
    }

    [Theory]
    [InlineData("{text: x, kind: speed}", "\"kind:\" of a claim is time, fills, mass, size, power")]
    [InlineData("{text: x, kind: time}", "needs its words and its figures, as {text: half full")]
    [InlineData("{text: x, kind: time, time: 1h, input: 5W, output: 5W}", "needs its words and its figures, as {text: half full")]
    [InlineData("{text: x, kind: time, time: 1h, share: 101%}", "at most 100%")]
    [InlineData("{kind: mass, mass_g: 3}", "needs its words and its figures, as {text: only 340 g")]
    public void ClaimThatCannotBeRead_IsSaid(string claim, string told) => ProductRun.Typed($"product: x\n{Cells}\nclaims: [{claim}]\n").Faults
        .Should().Contain(fault => fault.Fault.Detail.Contains(told, StringComparison.Ordinal));

    private static IEnumerable<string> Told(string members) => ProductRun.Typed($"product: x\n{members}\n").Findings
        .Where(static one => one.Rule.StartsWith("claimed-", StringComparison.Ordinal)).Select(static one => one.Verdict == Verdict.Fails ? "fails" : "cannot tell");
}
