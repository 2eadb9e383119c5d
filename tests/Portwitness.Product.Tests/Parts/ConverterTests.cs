using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests.Parts;

/// <summary>Ports on one converter have one voltage at a time: common practice, and arithmetic with printed modes.</summary>
public class ConverterTests
{
    private const string Apart = "converter-needs-two-voltages";
    private const string Together = "converter-holds-one-voltage";
    private const string Modes = "USB-C1: 5V 3A, 9V 3A, 15V 3A, 20V 3.25A\\nUSB-C2: 5V 3A, 9V 2.22A\\nUSB-A: 5V 3A, 9V 2A\\n";

    [Theory]

    // 45 W of C1 are 15 V 3 A or 20 V 3.25 A; 18 W of A only 9 V 2 A.
    [InlineData("C1+A: 45W+18W", true, "fails")]
    [InlineData("C1+A: 45W+18W", false, "cannot tell")]

    // 9 V does for 27 W and for 18 W; 20 W are 9 V 2.22 A, rounded.
    [InlineData("C1+A: 27W+18W", true, "")]
    [InlineData("C1+C2: 20W+20W", true, "")]
    [InlineData("C1+A: 5V 3A shared", true, "")]

    // C2 is on another converter.
    [InlineData("C1+C2: 45W+20W", true, "", "C1, A")]

    // A total does not say what each of them needs.
    [InlineData("C1+A: 63W", true, "")]
    public void PrintedCombination_IsHeldAgainstOneVoltage(string combination, bool traced, string told, string ports = "C1, C2, A") =>
        Told($"label: \"{Modes}{combination}\"\nconverters: [{{id: U1, ports: [{ports}], traced: {(traced ? "true" : "false")}}}]", Apart)
            .Should().Equal(told.Length == 0 ? [] : [$"{told}, line 4"]);

    [Fact]
    public void PoolOfFiveVolts_IsExplained()
    {
        ProductAnalysis analysis = ProductRun.Typed($"product: x\nlabel: \"{Modes}C1+A: 5V 3A shared\"\nconverters: [{{id: U1, ports: [C1, A], traced: true}}]\n");

        analysis.Findings.Where(static one => one.Rule == Together).Select(static one => $"{one.Severity} {one.Detail}").Should().Equal(
            "Note U1 feeds C1 and A, which can have one voltage together, 5 V: that is enough for what is printed for them in line 4.");
        analysis.Findings.Should().NotContain(static one => one.Rule == Apart);
    }

    // Incomplete words may hold the mode that would do.
    [Fact]
    public void PortOfWhichNotAllWasRead_AccusesNobody() => Told(
        "label: \"USB-C1: 5V 3A, 15V 3A, 20V 3.25A, 9Vx3?A\\nUSB-A: 5V 3A, 9V 2A\\nC1+A: 45W+18W\"\nconverters: [{id: U1, ports: [C1, A], traced: true}]", Apart)
        .Should().NotContain(static one => one.StartsWith("fails", StringComparison.Ordinal));

    [Theory]
    [InlineData("[C1, A]", "9V", true, "fails, line 0")]
    [InlineData("[C1, A]", "9V", false, "cannot tell, line 0")]
    [InlineData("[C1, A]", "5V", true, "")]
    public void PortsMeasuredAtOnce_AreHeldAgainstOneVoltage(string inUse, string at, bool traced, string told) => Told(
        $"label: \"{Modes.TrimEnd('\\', 'n')}\"\nconverters: [{{id: U1, ports: [C1, A], traced: {(traced ? "true" : "false")}}}]\nloads:\n"
            + $"  - {{port: C1, at: {at} 2A, in_use: {inUse}, measured: {at} 2A}}\n  - {{port: A, at: 5V 1A, in_use: {inUse}, measured: 5V 1A}}", Apart)
        .Should().Equal(told.Length == 0 ? [] : [told]);

    // A device at A may stay at 5 V (R3.2v1.1, 4.1: vSafe5V is what a source starts with). An offer is no delivery, so nobody is accused.
    [Theory]
    [InlineData("C1, A", "5V 3A; 9V 3A", "cannot tell, line 0")]
    [InlineData("C1, A", "5V 3A", "")]
    [InlineData("C1", "5V 3A; 9V 3A", "")]
    [InlineData("C1, C2", "5V 3A; 9V 3A", "")]
    public void OfferBesideAnotherPort_IsHeldAgainstOneVoltage(string inUse, string list, string told) => Told(
        $"converters: [{{id: U1, ports: [C1, A], traced: true}}]\noffers:\n  - {{port: C1, in_use: [{inUse}], list: [{list.Replace(";", ",", StringComparison.Ordinal)}], under_contract: true}}", Apart)
        .Should().Equal(told.Length == 0 ? [] : [told]);

    // Several loads of one port under one arrangement were one after the other; which of them were at once nobody says.
    [Fact]
    public void LoadsOneAfterTheOther_AccuseNobody() => Told(
        """
        converters: [{id: U1, ports: [C1, A], traced: true}]
        loads:
          - {port: C1, at: 9V 2A, in_use: [C1, A], measured: 9V 2A}
          - {port: A, at: 9V 2A, in_use: [C1, A], measured: 9V 2A}
          - {port: A, at: 5V 1A, in_use: [C1, A], measured: 5V 1A}
        """, Apart).Should().BeEmpty();

    [Fact]
    public void PortThatTheLabelDoesNotName_IsSaid() => ProductRun.Typed($"product: x\nlabel: \"{Modes}C1+A: 45W+18W\"\nconverters: [{{id: U1, ports: [C1, USB-B], traced: true}}]\n")
        .Findings.Single(static one => one.Rule == Apart).Should().Match<Portwitness.Analysis.Findings.Finding>(static one =>
            one.Verdict == Verdict.CannotTell && one.Detail.ToString() == "U1 is said to feed USB-B, which the label does not name.");

    [Theory]
    [InlineData("[{id: U1}]", "needs its name and the ports")]
    [InlineData("[{id: U1, ports: [C1, A], traced: perhaps}]", "\"traced: true\" or \"traced: false\" was expected")]
    [InlineData("[{id: U1, port: [C1]}]", "Did you mean \"ports\"?")]
    public void ConverterThatCannotBeRead_IsSaid(string converters, string told) =>
        ProductRun.Typed($"product: x\nlabel: \"USB-C1: 5V 3A\"\nconverters: {converters}\n").Faults
            .Should().Contain(fault => fault.Fault.Detail.Contains(told, StringComparison.Ordinal));

    private static IEnumerable<string> Told(string members, string rule) => ProductRun.Typed($"product: x\n{members}\n").Findings.Where(one => one.Rule == rule)
        .Select(static one => $"{(one.Verdict == Verdict.Fails ? "fails" : "cannot tell")}, line {one.LabelLine ?? 0}");
}
