using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;

namespace Portwitness.Product.Tests.Arrangements;

/// <summary>
/// Rules about ports together, on both sides of their limits, and where the evidence accuses nobody. A watt is what rounding volts and
/// amperes makes (R3.2v1.1, 10.2); Source_Info is R3.2v1.1, 6.4.11.
/// </summary>
public class ArrangementRuleTests
{
    private const string Alone65 = "5V 3A, 9V 3A, 15V 3A, 20V 3.25A";
    private const string Alone30 = "5V 3A, 9V 3A, 15V 2A";
    private const string Ports = "USB-C1: 65W Max\nUSB-C2: 30W Max\n";

    // Half a watt or a hundredth are the rounding of a printed power (common practice). 45 W are printed for C1 beside C2; what it is offered as the second is 15 V times so many amperes.
    [Theory]
    [InlineData("15V 3A", "")]
    [InlineData("15V 2.97A", "")]
    [InlineData("15V 2.96A", "combination-power-differs Fails")]
    [InlineData("20V 2.27A", "")]
    [InlineData("20V 2.28A", "combination-power-differs Fails")]
    public void PrintedShare_HoldsInEveryOrder(string second, string expected)
    {
        Offers c1 = new(Alone65, "5V 3A, 9V 3A, 15V 3A, 20V 2.25A", $"5V 3A, 9V 3A, {second}");
        PortCapture[] all = PortsTogether.BothOrders(c1, new(Alone30, "5V 3A, 9V 2.22A", "5V 3A, 9V 2.22A"), 0, 0);

        Told(PortsTogether.Check(Ports + "C1+C2: 45W+20W", all), "combination-power-differs").Should().Be(expected);
    }

    [Fact]
    public void PrintedShare_BehindAPlainCable_CannotBeTold()
    {
        Offers c1 = new("5V 3A, 9V 3A, 15V 3A, 20V 5A", "5V 3A, 9V 3A, 15V 3A, 20V 3.25A", "5V 3A, 9V 3A, 15V 3A, 20V 3A");
        PortCapture[] all = PortsTogether.BothOrders(c1, new(Alone30, "5V 3A, 9V 2.22A", "5V 3A, 9V 2.22A"), 0, 0);
        all[3] = all[3] with { Text = all[3].Text.Replace("cable: 5A captive", "cable: 3A detachable", StringComparison.Ordinal) };

        ProductAnalysis analysis = PortsTogether.Check("USB-C1: 100W Max\nUSB-C2: 30W Max\nC1+C2: 65W+20W", all);

        analysis.Findings.Should().NotContain(finding => finding.Verdict == Verdict.Fails);
    }

    [Theory]
    [InlineData("5V⎓3A", "5V 3A", "")]
    [InlineData("5V⎓3A", "5V 3A, 9V 2.22A", "combination-voltage-not-as-printed Fails")]
    [InlineData("5V⎓3A 9V⎓2.22A", "5V 3A, 9V 2.22A", "")]
    public void PrintedVoltage_IsTheHighest(string printed, string offered, string expected)
    {
        Offers both = new(Alone30, offered, offered);

        Told(
            PortsTogether.Check($"USB-C1: 30W Max\nUSB-C2: 30W Max\nC1+C2: {printed}+{printed}", PortsTogether.BothOrders(both, both, 0, 0)),
            "combination-voltage-not-as-printed").Should().Be(expected);
    }

    // A total of 65 W: what both are offered at once.
    [Theory]
    [InlineData("15V 3A", "9V 2.22A", "Total Output: 65W", "")]
    [InlineData("20V 2.25A", "9V 2.29A", "Total Output: 65W", "")]
    [InlineData("20V 2.25A", "9V 2.3A", "Total Output: 65W", "combination-budget-exceeded Fails")]
    [InlineData("20V 2.25A", "9V 2.3A", "Max Output: 65W", "combination-budget-exceeded CannotTell")]
    public void Sum_IsHeldAgainstTheTotal(string c1, string c2, string total, string expected)
    {
        Offers first = new(Alone65, $"5V 3A, 9V 3A, {c1}", $"5V 3A, 9V 3A, {c1}");
        Offers second = new(Alone30, $"5V 3A, {c2}", $"5V 3A, {c2}");

        Told(PortsTogether.Check(Ports + total, PortsTogether.BothOrders(first, second, 0, 0)), "combination-budget-exceeded").Should().Be(expected);
    }

    // Without a total the largest sum shows what the product reckons with; it is a note, and printed combinations are judged elsewhere.
    [Theory]
    [InlineData("15V 3A", "9V 2.22A", "", "")]
    [InlineData("20V 3A", "9V 2.22A", "", "combination-budget-exceeded note")]
    [InlineData("20V 3A", "9V 2.22A", "C1+C2: 60W+20W", "")]
    public void LargestSum_IsToldWithoutATotal(string c1, string c2, string printed, string expected)
    {
        Offers first = new(Alone65, $"5V 3A, 9V 3A, {c1}", $"5V 3A, 9V 3A, {c1}");
        Offers second = new(Alone30, $"5V 3A, {c2}", $"5V 3A, {c2}");

        Told(PortsTogether.Check(Ports + printed, PortsTogether.BothOrders(first, second, 0, 0)), "combination-budget-exceeded").Should().Be(expected);
    }

    [Theory]
    [InlineData(4, "")]
    [InlineData(2, "arrangement-not-captured note")]
    [InlineData(1, "arrangement-not-captured CannotTell")]
    [InlineData(0, "arrangement-not-captured CannotTell")]
    public void PrintedCombination_NeedsCapturesInBothOrders(int captures, string expected)
    {
        Offers first = new(Alone65, "5V 3A, 9V 3A, 15V 3A", "5V 3A, 9V 3A, 15V 3A");
        Offers second = new(Alone30, "5V 3A, 9V 2.22A", "5V 3A, 9V 2.22A");
        PortCapture alone = new("C1", PortsTogether.Alone("C1", first.Second));
        ProductAnalysis analysis = PortsTogether.Check(
            Ports + "C1+C2: 45W+20W", [alone, .. PortsTogether.BothOrders(first, second, 0, 0).Take(captures)]);

        Told(analysis, "arrangement-not-captured").Should().Be(expected);
        analysis.Of("arrangement-not-captured").Where(finding => finding.Verdict == Verdict.CannotTell)
            .Should().NotContain(finding => finding.NextStep.Text().Length == 0);
    }

    // Maximum PDP 45 W, guaranteed: word 0x802D2D2D; managed: 0x002D2D2D.
    [Theory]
    [InlineData("0x802D2D2D", "15V 2.94A", "5A captive", "")]
    [InlineData("0x802D2D2D", "15V 2.93A", "5A captive", "guaranteed-port-reduced Fails")]
    [InlineData("0x802D2D2D", "15V 2.93A", "3A detachable", "guaranteed-port-reduced CannotTell")]
    [InlineData("0x002D2D2D", "15V 1A", "5A captive", "")]
    public void GuaranteedPort_KeepsItsPower(string info, string second, string cable, string expected)
    {
        const string Full = "5V 3A, 9V 3A, 15V 3A";
        string alone =
            $"""
            port: C1
            in_use: [C1]
            edition: R3.2
            cable: 5A captive
            source: [{Full}]
            steps: [attach, advertise, contract 3 at 3A, send sink Get_Source_Info, send source Source_Info {info}]

            """;
        string beside = PortsTogether.Second("C2", "C1", new(Full, Full, $"5V 3A, 9V 3A, {second}"))
            .Replace("edition: R3.0", "edition: R3.2", StringComparison.Ordinal).Replace("cable: 5A captive", $"cable: {cable}", StringComparison.Ordinal);

        Told(PortsTogether.Check("", new("C1", alone), new("C1", beside)), "guaranteed-port-reduced").Should().Be(expected);
    }

    // Present PDP 45 W (0x002D2D13) against 20 W that are offered, two seconds (tCapabilitiesMismatchResponse) after the contract.
    [Theory]
    [InlineData("mismatch", "pause 2100ms", "R3.2", "present-pdp-inconsistent Fails")]
    [InlineData("mismatch", "pause 1500ms", "R3.2", "")]
    [InlineData("", "pause 2100ms", "R3.2", "")]
    [InlineData("mismatch", "pause 1s, advertise more, pause 2s", "R3.2", "")]
    [InlineData("mismatch", "pause 2100ms", "R3.0", "")]
    public void PresentPdp_IsOfferedWhenItIsWanted(string flag, string after, string edition, string expected)
    {
        string script =
            $"""
            port: C1
            in_use: [C1]
            edition: {edition}
            cable: 5A captive
            source:
              less: [5V 3A, 9V 2.22A]
              more: [5V 3A, 9V 3A, 15V 3A]
            steps: [attach, advertise less, contract 2 at 2.22A {flag}, send sink Get_Source_Info, send source Source_Info 0x002D2D13, {after}, measure 9V 2A]

            """;

        Told(PortsTogether.Check("", new PortCapture("C1", script)), "present-pdp-inconsistent").Should().Be(expected);
    }

    [Theory]
    [InlineData("0x002D2D13", "45W+20W", "")]
    [InlineData("0x00412D13", "45W+20W", "")]
    [InlineData("0x002D1E13", "45W+20W", "present-pdp-inconsistent note")]
    public void PresentPdp_IsHeldAgainstThePrintedShare(string info, string printed, string expected)
    {
        string script =
            $"""
            port: C1
            in_use: [C1, C2]
            edition: R3.2
            cable: 5A captive
            source: [5V 3A, 9V 3A, 15V 3A]
            steps: [attach, advertise, contract 3 at 3A, send sink Get_Source_Info, send source Source_Info {info}]

            """;

        Told(PortsTogether.Check(Ports + "C1+C2: " + printed, new PortCapture("C1", script)), "present-pdp-inconsistent").Should().Be(expected);
    }

    [Theory]
    [InlineData("5V 3A, 9V 3A, 15V 2A", "")]
    [InlineData("5V 3A, 9V 3A, 15V 1.94A", "")]
    [InlineData("5V 3A, 9V 3A, 15V 1.93A", "attach-order-matters note")]
    [InlineData("5V 3A, 9V 2A, 15V 2A", "")]
    [InlineData("5V 3A, 15V 2A", "attach-order-matters note")]
    public void AttachOrder_MattersFromAWattOrAnObject(string second, string expected)
    {
        PortCapture[] all = PortsTogether.BothOrders(new(Alone30, Alone30, second), new(Alone30, Alone30, Alone30), 0, 0);

        Told(PortsTogether.Check("", all), "attach-order-matters").Should().Be(expected);
    }

    private static string Told(ProductAnalysis analysis, string rule)
    {
        Finding[] found = [.. analysis.Of(rule)];
        string[] verdicts = [.. found.Select(finding => finding.Verdict?.ToString() ?? "note").Distinct()];
        verdicts.Length.Should().BeLessThanOrEqualTo(1);
        return verdicts.Length == 0 ? "" : $"{rule} {verdicts[0]}";
    }
}
