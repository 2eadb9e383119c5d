using System.Text;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>What the rules of sequence say depends on, case by case. Clauses are those of the rules.</summary>
public class SequenceRuleTests
{
    private const string Tail = "get-sink-cap;send sink DR_Swap;reject;get-sink-cap;send sink DR_Swap;reject";

    // Table 6.77: Source_Info is mandatory but for a single-port SPR charger with invariant objects.
    [Theory]
    [InlineData("R3.2", PowerSharing.None, "5V 3A", null)]
    [InlineData("R3.2", PowerSharing.Unknown, "5V 3A", Severity.Caution)]
    [InlineData("R3.2", PowerSharing.Possible, "5V 3A", Severity.Violation)]
    [InlineData("R3.2", PowerSharing.None, "5V 3A epr", Severity.Violation)]
    [InlineData("R3.0", PowerSharing.Possible, "5V 3A epr", null)]
    [InlineData(null, PowerSharing.Possible, "5V 3A", Severity.Caution)]
    public void SourceInfoNotSupported_DependsOnPortAndEdition(string? edition, PowerSharing sharing, string first, Severity? expected) =>
        Worst("mandatory-answer-not-supported", "send sink Get_Source_Info;not-supported source", edition, sharing, first).Should().Be(expected);

    // As of R3.2v1.1 every R3.x source tells its revision; nothing older was read.
    [Theory]
    [InlineData("R3.2", Severity.Violation)]
    [InlineData("R3.1", null)]
    [InlineData(null, Severity.Caution)]
    public void RevisionNotSupported_DependsOnTheEdition(string? edition, Severity? expected) =>
        Worst("mandatory-answer-not-supported", "send sink Get_Revision;not-supported source", edition).Should().Be(expected);

    // 6.5.10: PPS_Status is mandatory with SPR PPS; Source_Capabilities_Extended is recommended only.
    [Theory]
    [InlineData("send sink Get_PPS_Status;not-supported source", "9V 3A", null)]
    [InlineData("send sink Get_PPS_Status;not-supported source", "PPS 5-11V 3A", Severity.Violation)]
    [InlineData("send sink Get_Source_Cap_Extended;not-supported source", "9V 3A", null)]
    [InlineData("send sink Get_Source_Cap;not-supported source", "9V 3A", Severity.Violation)]
    [InlineData("send source Get_Sink_Cap;not-supported sink", "9V 3A", Severity.Note)]
    [InlineData("send sink Get_Sink_Cap;not-supported source", "9V 3A", null)] // of a source that is no sink
    [InlineData("send sink Get_Status;not-supported source", "9V 3A", null)]
    public void OtherMessagesNotSupported_DependOnWhatIsOffered(string steps, string second, Severity? expected) =>
        Worst("mandatory-answer-not-supported", steps, "R3.2", second: second).Should().Be(expected);

    // Tables 6.77 and 6.79: a source that says EPR Capable tells its EPR list; another need not know the message.
    [Theory]
    [InlineData("send sink Extended_Control 0100;not-supported source", "5V 3A epr", Severity.Violation)]
    [InlineData("send sink Extended_Control 0100;not-supported source", "5V 3A", null)]
    [InlineData("send sink Extended_Control 0200;not-supported source", "5V 3A epr", null)] // EPR_Get_Sink_Cap
    public void EprListNotSupported_DependsOnTheBit(string steps, string first, Severity? expected) =>
        Worst("mandatory-answer-not-supported", steps, "R3.2", first: first).Should().Be(expected);

    // nHardResetCount, 2 (Table 6.70): the third in a row is one too many.
    [Theory]
    [InlineData(2, null)]
    [InlineData(3, Severity.Caution)]
    public void HardResetsInARow_AreCounted(int resets, Severity? expected) =>
        CaptureRun.Text(Bare("attach;advertise;" + string.Join(';', Enumerable.Repeat("hard-reset;advertise", resets)), "3.x")).Findings
            .Where(static finding => finding.Rule == "reset-loop").Select(static finding => (Severity?)finding.Severity).Min().Should().Be(expected);

    // Table 6.29: major version in bits 14 and 13, minor in 12 and 11. That an answer is of no later version is from memory.
    [Theory]
    [InlineData("FF00A001", "FF00A081", null)]
    [InlineData("FF00A801", "FF00A881", null)]
    [InlineData("FF00A801", "FF00A081", null)]
    [InlineData("FF00A001", "FF00A881", Severity.Caution)]
    [InlineData("FF008001", "FF00A081", Severity.Caution)]
    [InlineData("FF008001", "FF009881", null)] // version 1.0 has no minor version
    public void AnswerInALaterVersion_IsACaution(string asked, string answered, Severity? expected) => Worst(
        "vdm-version-inconsistent", $"send sink Vendor_Defined 0x{asked};send source Vendor_Defined 0x{answered}", "R3.2").Should().Be(expected);

    // Table 6.70: two retries, in R2.0 three.
    [Theory]
    [InlineData("3.x", "with drop-goodcrc 2", null)]
    [InlineData("3.x", "with extra-retries 1", Severity.Violation)]
    [InlineData("2.0", "with drop-goodcrc 3", null)]
    [InlineData("2.0", "with extra-retries 1", Severity.Violation)]
    public void Retries_AreCountedByRevision(string revision, string mishap, Severity? expected) => Worst(
        "retries-exceeded", $"send source Get_Sink_Cap {mishap};soft-reset source;advertise;contract 1 at 3A", null, revision: revision)
        .Should().Be(expected);

    // tSenderResponse begins at 24 ms in the oldest edition: a reset before that has another reason.
    [Theory]
    [InlineData(20_400, null)]
    [InlineData(20_600, Severity.Caution)]
    [InlineData(110_000, Severity.Caution)]
    public void ResetWithoutAnAnswer_SpeaksOnlyWhenATimerRanOut(int pauseUs, Severity? expected) => Worst(
        "answer-missing", $"send sink Get_Source_Cap;pause {pauseUs}us;soft-reset sink;advertise;contract 1 at 3A", null).Should().Be(expected);

    // Three lists, or more than a second behind one: common practice, no source. A port that advertises once and is unplugged shows nothing.
    [Theory]
    [InlineData("attach;advertise", null)]
    [InlineData("attach;advertise;advertise", null)]
    [InlineData("attach;advertise;advertise;advertise", Severity.Note)]
    [InlineData("attach;advertise;pause 990ms;soft-reset source", null)]
    [InlineData("attach;advertise;pause 1010ms;soft-reset source", Severity.Note)]
    [InlineData("attach;advertise;contract 1 at 3A;advertise;contract 1 at 3A;advertise;contract 1 at 3A", null)]
    public void ListsWithoutARequest_AreANote(string steps, Severity? expected) => CaptureRun.Told(Bare(steps, "3.x")).Findings
        .Where(static finding => finding.Rule == "capabilities-never-answered").Select(static finding => (Severity?)finding.Severity).Min().Should().Be(expected);

    // 6.13.1 and 6.4.4.4, from memory: in R2.0 a port may leave a VDM unanswered.
    [Theory]
    [InlineData("2.0", null)]
    [InlineData("3.x", Severity.Violation)]
    public void UnansweredVdm_DependsOnTheRevision(string revision, Severity? expected) => Worst(
        "answer-missing", $"send sink Vendor_Defined 0xFF00A001;pause 40ms;send sink DR_Swap;reject", null, revision: revision).Should().Be(expected);

    [Theory]
    [InlineData("send sink Get_Source_Cap;pause 30ms;send sink DR_Swap;reject", "answer-missing")]
    [InlineData("pause 5ms;accept", "unexpected-message")]
    [InlineData("send sink Get_Source_Cap;advertise with same-id", "message-id-not-advanced")]
    public void GapNearby_LeavesItOpen(string steps, string rule)
    {
        string[] lines = Script(steps, null).Split('\n', StringSplitOptions.RemoveEmptyEntries);

        // Accept of the first contract; its GoodCRC stays.
        string lossy = string.Join('\n', lines.Where((_, index) => index != 7));
        CaptureRun.Text(string.Join('\n', lines)).Findings.Should().Contain(
            finding => finding.Rule == rule && finding.Severity == Severity.Violation);
        Finding[] open = [.. CaptureRun.Text(lossy).Findings.Where(finding => finding.Rule == rule)];
        open.Should().NotBeEmpty().And.OnlyContain(finding => finding.Severity == Severity.Caution
            && finding.Detail.Text().Contains("misses messages near here", StringComparison.Ordinal) && finding.NextStep.Text().Length > 0);
    }

    // The log shows no GoodCRC, one side, and software's times: whatever it shows is open.
    [Fact]
    public void KernelLog_AccusesNobody()
    {
        CaptureAnalysis analysis = CaptureRun.Text(
            """
            [   96.394404] PD RX, header: 0x2161 [1]
            [   96.394408]  PDO 0: type 0, 5000 mV, 3000 mA [E]
            [   96.394410]  PDO 1: type 0, 9000 mV, 2000 mA []
            [   96.395089] Requesting PDO 1: 9000 mV, 2000 mA
            [   96.395093] PD TX, header: 0x1042
            [   96.397404] PD TX complete, status: 0
            [   96.458000] PD TX, type: 0x5
            [   96.460000] PD TX complete, status: 0
            """);

        analysis.Findings.Where(finding => finding.Severity != Severity.Note).Should().ContainSingle()
            .Which.Should().Match<Finding>(finding => finding.Rule == "answer-missing" && finding.Severity == Severity.Caution);
    }

    private static Severity? Worst(
        string rule, string steps, string? edition, PowerSharing sharing = PowerSharing.Unknown, string first = "5V 3A",
        string second = "9V 3A", string revision = "3.x") =>
        CaptureRun.Told(Script(steps, edition, first, second, revision), new CaptureOptions { File = "capture", Sharing = sharing }).Findings
            .Where(finding => finding.Rule == rule).Select(finding => (Severity?)finding.Severity).Min();

    private static string Bare(string steps, string revision) => Encoding.UTF8.GetString(Synthesised.Bytes(
        $"revision: {revision}\nsource: [5V 3A, 9V 3A]\nsink: [5V 3A]\nsteps:\n" + string.Concat(steps.Split(';').Select(step => $"  - {step}\n"))));

    private static string Script(string steps, string? edition, string first = "5V 3A", string second = "9V 3A", string revision = "3.x") =>
        Encoding.UTF8.GetString(Synthesised.Bytes(
            $"""
            {(edition is null ? "" : $"edition: {edition}")}
            revision: {revision}
            source: [{first}, {second}]
            sink: [5V 3A]
            steps:

            """ + string.Concat($"attach;advertise;contract 1 at 3A;pause 40ms;{steps};{Tail}".Split(';').Select(step => $"  - {step}\n"))));
}
