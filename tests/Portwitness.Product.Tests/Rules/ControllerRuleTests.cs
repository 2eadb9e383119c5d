using System.Text;

namespace Portwitness.Product.Tests.Rules;

/// <summary>
/// Rules about port controllers, on both sides. What a data sheet states is the user's; PPS came with USB PD R3.0, AVS and EPR with R3.1 (R3.2v1.1, revision
/// history).
/// </summary>
public class ControllerRuleTests
{
    // 5 V, 9 V, 15 V 3 A and 20 V 3.25 A; the last one is PPS 3.3 V to 11 V 3 A (R3.2v1.1, 6.4.1.2.3).
    private const string Watts65 = "0x0801912C 0x0002D12C 0x0004B12C 0x00064145";
    private const string Pps = "0xC0DC213C";

    [Theory]
    [InlineData("USB-C: 65W Max", "watts: 65, ports: [C]", "")]
    [InlineData("USB-C: 66W Max", "watts: 65W, ports: [C]", "mismatch")]
    [InlineData("USB-C: 100W Max", "watts: 65", "mismatch")]
    [InlineData("USB-C: 5V⎓3A 20V⎓5A", "watts: 65", "mismatch")]
    [InlineData("Output: 5V⎓3A 20V⎓5A", "watts: 65", "mismatch")]
    [InlineData("USB-C1: 100W Max\nUSB-C2: 20W Max", "watts: 65, ports: [C1]", "mismatch")]
    [InlineData("USB-C1: 100W Max\nUSB-C2: 20W Max", "watts: 65, ports: [C2]", "")]
    // Which of two ports it drives is not stated; another part may give it.
    [InlineData("USB-C1: 100W Max\nUSB-C2: 20W Max", "watts: 65", "caution")]
    [InlineData("USB-C: 5V⎓3A 9V⎓2A FLUX 11V⎓6A (66W Max)", "watts: 20, ports: [C]", "caution")]
    [InlineData("USB-C: 5V⎓3A, PPS 3.3-11V⎓3A", "protocols: [PD3.0, PPS], ports: [C]", "")]
    [InlineData("USB-C: 5V⎓3A, PPS 3.3-11V⎓3A", "protocols: [PD3.0], ports: [C]", "caution")]
    [InlineData("USB-C: 5V⎓3A, PPS 3.3-11V⎓3A", "protocols: [PD2.0], ports: [C]", "mismatch")]
    [InlineData("USB-C: 5V⎓3A, UFCS 11V⎓3A", "protocols: [PD3.0, UFCS], ports: [C]", "")]
    [InlineData("USB-C: 5V⎓3A, UFCS 11V⎓3A", "protocols: [PD3.0], ports: [C]", "caution")]
    public void Label_IsHeldAgainstTheController(string label, string members, string severity) =>
        SeverityOf("label-beyond-controller", Run($"label: \"{label.Replace("\n", "\\n", StringComparison.Ordinal)}\"\n", members)).Should().Be(severity);

    [Theory]
    [InlineData(Watts65, "watts: 65, ports: [C]", "")]
    [InlineData(Watts65, "watts: 60, ports: [C]", "mismatch")]
    [InlineData(Watts65, "watts: 60, ports: [C2]", "")]
    [InlineData(Watts65 + " " + Pps, "protocols: [PD3.0, PPS], ports: [C]", "")]
    [InlineData(Watts65 + " " + Pps, "protocols: PD2.0, ports: C", "mismatch")]
    [InlineData(Watts65 + " " + Pps, "protocols: [PD3.1], ports: [C]", "caution")]
    public void Offer_IsHeldAgainstTheController(string words, string members, string severity) =>
        SeverityOf("offer-beyond-controller", Run("", members, words)).Should().Be(severity);

    [Theory]
    [InlineData(Watts65 + " " + Pps, "protocols: [PD3.0, PPS], ports: [C]", "", "")]
    [InlineData(Watts65, "protocols: [PD3.0, PPS], ports: [C]", "label: \"USB-C: 65W Max\"\n", "note")]
    // A port that may share its power may list less before the first contract (R3.2v1.1, 6.4.11).
    [InlineData(Watts65, "protocols: [PD3.0, PPS], ports: [C]", "", "")]
    [InlineData(Watts65, "protocols: [PD3.0, PPS], ports: [C, C2]", "", "")]
    [InlineData(Watts65, "protocols: [UFCS], ports: [C]", "", "")]
    [InlineData(Watts65, "protocols: [UFCS], ports: [C]", "signalling: {C: [no-ufcs]}\n", "note")]
    [InlineData(Watts65, "protocols: [UFCS], ports: [C]", "signalling: {C: [ufcs]}\n", "")]
    public void ProtocolThatNoPortAnswers_IsNoted(string words, string members, string others, string severity) =>
        SeverityOf("controller-protocol-not-answered", Run(others, members, words)).Should().Be(severity);

    [Theory]
    [InlineData("{part: U1, kind: controller}", "a controller needs its name and its power or its protocols")]
    [InlineData("{part: U1, kind: controller, watts: lots}", "a power up to 1000 W was expected")]
    [InlineData("{part: U1, kind: controller, watts: 65, node: C}", "\"node\"")]
    [InlineData("{part: U1, kind: chip, node: C, volts: 30V}", "\"chip\" is no kind of part that is known here")]
    public void WrongController_IsAFaultWithItsPlace(string part, string says)
    {
        Captures.CaptureFault fault = ProductFileReader.Read($"parts:\n  - {part}\n").Faults[0];

        fault.Detail.Should().Contain(says);
        fault.Line.Should().Be(2);
    }

    // What ports give together is at most the sum of what their controllers do (arithmetic, no source). A controller of two ports may have its
    // power for each or for both.
    [Theory]
    [InlineData("C1: 65W\nA: 18W\nC1+A: 45W+18W", "{part: U1, kind: controller, watts: 65, ports: [C1]}", "{part: U2, kind: controller, watts: 18, ports: [A]}", "")]
    [InlineData("C1: 65W\nA: 18W\nC1+A: 65W+18W", "{part: U1, kind: controller, watts: 65, ports: [C1]}", "{part: U2, kind: controller, watts: 18, ports: [A]}", "")]
    [InlineData("C1: 65W\nA: 18W\nC1+A: 65W+30W", "{part: U1, kind: controller, watts: 65, ports: [C1]}", "{part: U2, kind: controller, watts: 18, ports: [A]}", "mismatch")]
    [InlineData("C1: 65W\nA: 18W\nTotal: 100W", "{part: U1, kind: controller, watts: 65, ports: [C1]}", "{part: U2, kind: controller, watts: 18, ports: [A]}", "mismatch")]
    [InlineData("C1: 65W\nA: 18W\nTotal: 83W", "{part: U1, kind: controller, watts: 65, ports: [C1]}", "{part: U2, kind: controller, watts: 18, ports: [A]}", "")]
    // What U2 does is not stated.
    [InlineData("C1: 65W\nA: 18W\nTotal: 100W", "{part: U1, kind: controller, watts: 65, ports: [C1]}", "{part: U2, kind: controller, protocols: [UFCS], ports: [A]}", "")]
    [InlineData("C1: 65W\nC2: 65W\nC1+C2: 65W+30W", "{part: U1, kind: controller, watts: 65, ports: [C1, C2]}", "{part: U2, kind: controller, watts: 18, ports: [A]}", "caution")]
    [InlineData("C1: 65W\nC2: 65W\nC1+C2: 45W+20W", "{part: U1, kind: controller, watts: 65, ports: [C1, C2]}", "{part: U2, kind: controller, watts: 18, ports: [A]}", "")]
    [InlineData("C1: 65W\nC2: 65W\nC1+C2: 80W+60W", "{part: U1, kind: controller, watts: 65, ports: [C1, C2]}", "{part: U2, kind: controller, watts: 18, ports: [A]}", "mismatch")]
    public void WhatPortsGiveTogether_IsHeldAgainstTheirControllers(string label, string first, string second, string severity)
    {
        string text = label.Replace("\n", "\\n", StringComparison.Ordinal);
        ProductAnalysis analysis = ProductRun.Typed($"label: \"{text}\"\nparts:\n  - {first}\n  - {second}\n");

        SeverityOf("label-beyond-controller", analysis).Should().Be(severity);
    }

    [Fact]
    public void ControllersOfSeveralPorts_EachHaveTheirOwn()
    {
        ProductAnalysis analysis = ProductRun.Typed(
            "label: \"USB-C1: 65W Max\\nUSB-C2: 30W Max\"\nparts:\n  - {part: U1, kind: controller, watts: 65, ports: [C1]}\n  - {part: U2, kind: controller, watts: 20}\n");

        analysis.Controllers.Select(static use => $"{use.Controller.Text} {string.Join('+', use.Ports)}").Should().Equal("U1 (65 W) C1", "U2 (20 W) C2");
        analysis.Findings.Should().ContainSingle(static finding => finding.Rule == "label-beyond-controller").Which.NextStep.ToString().Should()
            .Be("State which ports U2 drives: {part: U2, kind: controller, ports: [C2]}.");
    }

    private static string SeverityOf(string rule, ProductAnalysis analysis) =>
        analysis.Findings.FirstOrDefault(finding => finding.Rule == rule)?.Severity.ToString().ToLowerInvariant() ?? "";

    private static ProductAnalysis Run(string members, string controller, string? words = null)
    {
        string captures = words is null ? "" : "captures:\n  - {file: c, port: C, in_use: [C]}\n";
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", $"{members}parts:\n  - {{part: U1, kind: controller, {controller}}}\n{captures}", null);
        if (words is not null)
        {
            check.Open("c").Write(Encoding.UTF8.GetBytes(words));
            check.Close();
        }

        return check.Complete();
    }
}
