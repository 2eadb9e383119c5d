using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Product.Arrangements;

namespace Portwitness.Product.Tests.Arrangements;

/// <summary>What a port goes through when its neighbour comes and goes, on both sides of every limit. The limits are common practice, no source.</summary>
public class NeighbourTests
{
    private const string Plain = "attach, advertise alone, contract 3 at 3A no-suspend, pause 300ms, measure 15V 1A every 1ms for 50ms";

    // 15 V − 5 % − 0.5 V (vSrcNew and vSrcValid, R3.2v1.1, Table 7.23) is 13.75 V; the meter is good to 10 mV.
    [Theory]
    [InlineData("measure 13.74V 1A every 1ms for 30ms", "")]
    [InlineData("measure 13.73V 1A every 1ms for 30ms", "Fails")]
    [InlineData("measure 0.3V 0A", "CannotTell")]
    [InlineData("measure 0.3V 0A every 1ms for 2ms", "Fails")]
    [InlineData("measure 0.3V 3.5A every 1ms for 30ms", "CannotTell")]
    public void Vbus_LeavesTheContractOrNot(string measured, string verdict) => VerdictOf(
        "neighbour-interrupted", $"{Plain}, attach C2, {measured}, measure 15V 1A every 1ms for 50ms").Should().Be(verdict);

    // What falls more than five seconds after the neighbour came is another matter.
    [Theory]
    [InlineData("4900ms", "Fails")]
    [InlineData("5100ms", "")]
    public void Vbus_FallsBecauseOfTheNeighbourOrNot(string pause, string verdict) => VerdictOf(
        "neighbour-interrupted",
        $"{Plain}, attach C2, pause {pause}, measure 0.3V 0A every 1ms for 30ms, measure 15V 1A every 1ms for 50ms").Should().Be(verdict);

    [Fact]
    public void Interruption_IsTheSameWhenTheNeighbourLeaves()
    {
        ProductAnalysis analysis = Run($"{Plain}, attach C2, pause 1s, detach C2, measure 0.3V 0A every 1ms for 88ms, measure 15V 1A every 1ms for 50ms");

        Finding finding = analysis.Of("neighbour-interrupted").Single();
        finding.Verdict.Should().Be(Verdict.Fails);
        finding.Detail.Should().Contain("detached from C2").And.Contain("for 88 ms").And.Contain("without a Hard Reset");
    }

    // The reset ends the contract first: taking VBUS away is then what the source has to do (R3.2v1.1, 6.8.3). Who sent it is not on the line.
    [Fact]
    public void HardResetBeforeIt_CannotBeTold()
    {
        ProductAnalysis analysis = Run($"{Plain}, attach C2, pause 20ms, hard-reset, advertise shared, contract 2 at 2.22A no-suspend");

        Finding finding = analysis.Of("neighbour-interrupted").Single();
        finding.Verdict.Should().Be(Verdict.CannotTell);
        finding.Detail.Should().Contain("Hard Reset");
        finding.NextStep.Should().Contain("which side sends the Hard Reset");
    }

    [Fact]
    public void CleanRenegotiation_IsNoInterruption()
    {
        ProductAnalysis analysis = Run(
            $"{Plain}, attach C2, pause 500ms, advertise shared, contract 2 at 2.22A no-suspend, pause 300ms, measure 9V 1A every 1ms for 50ms");

        Transition one = analysis.Attached("C2");
        (one.Interruption, one.HardResetUs, one.MeasuresVbus).Should().Be((null, null, true));
        (one.BeforeMilliwatts, one.AfterMilliwatts).Should().Be((45_000, 19_980));
        (one.ListUs - one.AtUs).Should().BeInRange(500_000, 505_000);
        analysis.Of("neighbour-interrupted").Should().BeEmpty();
        analysis.Of("renegotiation-slow").Should().BeEmpty();
    }

    // What the tool waits by itself, the messages and tSrcTransReq are some 130 ms.
    [Theory]
    [InlineData("1800ms", "")]
    [InlineData("1900ms", "CannotTell")]
    public void CleanRenegotiation_HasTwoSeconds(string pause, string verdict) => VerdictOf(
        "renegotiation-slow", $"{Plain}, attach C2, pause {pause}, advertise shared, contract 2 at 2.22A no-suspend").Should().Be(verdict);

    // From the reset on tPSHardReset, tSafe0V, tSrcRecover, tSrcTurnOn, tFirstSourceCap and tSrcTransReq are some 1.3 s as the tool writes them.
    [Theory]
    [InlineData("2500ms", "")]
    [InlineData("3500ms", "CannotTell")]
    public void RenegotiationThroughAReset_HasFourSeconds(string pause, string verdict) => VerdictOf(
        "renegotiation-slow",
        $"{Plain}, attach C2, pause {pause}, hard-reset, advertise shared, contract 2 at 2.22A no-suspend").Should().Be(verdict);

    [Theory]
    [InlineData("9500ms", "")]
    [InlineData("10500ms", "CannotTell")]
    public void Power_IsBackWithinTenSeconds(string pause, string verdict) => VerdictOf(
        "power-not-restored",
        $"{Plain}, attach C2, advertise shared, contract 2 at 2.22A no-suspend, pause 3s, detach C2, pause {pause}, advertise alone, contract 3 at 3A no-suspend")
        .Should().Be(verdict);

    [Theory]
    [InlineData("9s", "")]
    [InlineData("11s", "CannotTell")]
    public void Power_NeverComesBack(string pause, string verdict) => VerdictOf(
        "power-not-restored",
        $"{Plain}, attach C2, advertise shared, contract 2 at 2.22A no-suspend, pause 3s, detach C2, pause {pause}, measure 9V 1A").Should().Be(verdict);

    // A list a second after the detach restores it, whatever comes later.
    [Fact]
    public void PowerThatWasNotTaken_NeedsNoRestoring() => VerdictOf(
        "power-not-restored", $"{Plain}, attach C2, pause 3s, detach C2, pause 30s, measure 15V 1A").Should().Be("");

    [Fact]
    public void WithoutAContract_NothingIsInterrupted()
    {
        ProductAnalysis analysis = Run("attach, advertise alone, pause 1s, attach C2, pause 1s, measure 0.3V 0A every 1ms for 30ms");

        analysis.Arrangements!.Transitions.Should().BeEmpty();
        analysis.Of("neighbour-interrupted").Should().BeEmpty();
    }

    [Fact]
    public void TransitionsBeyondWhatIsKept_AreCountedAndAccuseNobody()
    {
        ProductAnalysis analysis = Run($"{Plain}, repeat 3000: [attach C2, detach C2]");

        analysis.Arrangements!.Transitions.Length.Should().BeLessThanOrEqualTo(1000);
        analysis.Findings.Should().NotContain(finding => finding.Verdict == Verdict.Fails);
    }

    // The receiver's events are evidence, too: without measurements they tell that VBUS went, and that it came back.
    [Theory]
    [InlineData("vbus-off 300, vbus-on 700", "Fails", "VBUS of C1 was found gone at 1.300 s and present again 400 ms later, without a Hard Reset.")]
    [InlineData("vbus-off 300", "CannotTell", "VBUS of C1 was found gone at 1.300 s, and not present again, without a Hard Reset.")]
    [InlineData("vbus-off 300, detach 305", "", "")]
    [InlineData("vbus-on 300", "", "")]
    public void VbusEvents_TellTheInterruption(string events, string verdict, string detail)
    {
        Finding[] found = [.. Recorded(events).Of("neighbour-interrupted")];

        string.Join(", ", found.Select(static finding => $"{finding.Verdict}")).Should().Be(verdict);
        string.Concat(found.Select(static finding => finding.Detail)).Should().EndWith(detail.Length > 0 ? $"{detail} No other contract was seen." : "").And.NotContain("not measured");
    }

    [Fact]
    public void HardResetWithVbusEvents_IsNotSaidToBeUnmeasured()
    {
        ProductAnalysis analysis = Run($"{Plain[..Plain.IndexOf(", measure", StringComparison.Ordinal)]}, attach C2, pause 20ms, hard-reset, advertise shared, contract 2 at 2.22A no-suspend");

        Finding finding = analysis.Of("neighbour-interrupted").Single();
        finding.Observed.Should().StartWith("VBUS gone for ").And.NotContain("not measured");
        finding.Verdict.Should().Be(Verdict.CannotTell);
    }

    // A contract for 5 V 3 A, C2 a second later, and events so many milliseconds after that.
    private static ProductAnalysis Recorded(string events) => PortsTogether.Check("", new PortCapture(
        "C1",
        """
        {"capture":1,"port":"C1","in_use":["C1"]}
        {"t":1000,"sop":"SOP","hex":"A1112C910120"}
        {"t":2000,"sop":"SOP","hex":"82102CB10410"}
        {"t":3000,"sop":"SOP","hex":"A303"}
        {"t":90000,"sop":"SOP","hex":"A605"}
        {"t":1000000,"event":"attach","port":"C2"}

        """ + string.Concat(events.Split(", ").Select(static one => one.Split(' ')).Select(
            static one => $"{{\"t\":{1_000_000 + (1_000 * int.Parse(one[1], CultureInfo.InvariantCulture))},\"event\":\"{one[0]}\"}}\n"))));

    private static string VerdictOf(string rule, string steps)
    {
        Finding[] found = [.. Run(steps).Of(rule)];
        found.Length.Should().BeLessThanOrEqualTo(1);
        return found.Length == 0 ? "" : found[0].Verdict?.ToString() ?? "note";
    }

    private static ProductAnalysis Run(string steps) => PortsTogether.Check("", new PortCapture(
        "C1",
        $$"""
        port: C1
        in_use: [C1]
        edition: R3.0
        measured_at: source
        accuracy: {vbus_mv: 10, ibus_ma: 10}
        source:
          alone: [5V 3A, 9V 3A, 15V 3A]
          shared: [5V 3A, 9V 2.22A]
        steps: [{{steps}}]
        """));
}
