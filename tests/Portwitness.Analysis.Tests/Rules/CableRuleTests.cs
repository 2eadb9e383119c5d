using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>
/// What a source does with its cable (R3.2v1.1, 4.4 and 6.4.10.1), and what markers say (Tables 6.33, 6.41, 6.42). Check words
/// of shared/vectors: 0x11082040 is a passive 5 A cable of 20 V, 0x110A2643 an EPR one of 50 V.
/// </summary>
public class CableRuleTests
{
    private const string Charger = "source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, 28V 5A, EPR AVS 15-28V 140W]";

    // EPR_Mode Enter with 140 W, Enter Acknowledged, Enter Succeeded (Table 6.50).
    private const string EnterEpr = "send sink EPR_Mode 0x018C0000, send source EPR_Mode 0x02000000, send source EPR_Mode 0x03000000";

    [Theory]
    [InlineData("", "attach, discover-cable 5A, advertise", "")]
    [InlineData("", "attach, discover-cable 3A, advertise", "")] // another rule's business
    [InlineData("records_sop: [SOP, SOP']", "attach, advertise", "fails")]
    [InlineData("records_sop: [SOP, SOP']\ncable: captive", "attach, advertise", "")]
    [InlineData("records_sop: [SOP]", "attach, advertise", "")] // the instrument cannot show it
    [InlineData("", "attach, advertise", "cannot tell")]
    [InlineData("", "advertise", "cannot tell")] // the capture begins late
    [InlineData("records_sop: [SOP, SOP']", "advertise", "cannot tell")]
    [InlineData("cable: 5A", "advertise", "")]
    [InlineData("cable: 5A", "attach, advertise", "cannot tell")]
    [InlineData("records_sop: [SOP, SOP']\ncable: 5A", "attach, advertise", "fails")]
    [InlineData("", "attach, advertise, discover-cable 5A", "fails")] // asked too late: SOP' is recorded
    [InlineData("", "attach, discover-cable silent, advertise", "fails")] // no answer: 3 A
    [InlineData("cable: 5A", "attach, discover-cable silent, advertise", "cannot tell")] // the instrument may have missed it
    [InlineData("", "attach, discover-cable 5A with bad-crc 3, advertise", "")]
    [InlineData("", "attach, raw cable SOP' 8F110000 81A000FF, advertise", "cannot tell")] // NAK
    [InlineData("", "attach, discover-cable 5A, advertise, detach, attach, advertise", "fails")]
    [InlineData("", "attach, discover-cable 5A, hard-reset, advertise", "")]
    [InlineData("edition: R2.0", "attach, advertise, discover-cable 5A", "cannot tell")] // from memory
    [InlineData("edition: R3.0", "attach, advertise, discover-cable 5A", "fails")]
    public void OfferAbove3A_NeedsTheCablesWord(string header, string steps, string expected) =>
        Found("five-amp-offer-without-cable-check", header, steps).Should().Be(expected);

    [Fact]
    public void OfferOf3A_NeedsNone()
    {
        Judge("five-amp-offer-without-cable-check", "records_sop: [SOP, SOP']\nsource: [5V 3A, 20V 3A]\nsteps: [attach, advertise]").Should().BeEmpty();
        Judge("five-amp-offer-without-cable-check", "records_sop: [SOP, SOP']\nsource: [5V 3A, 20V 3.01A]\nsteps: [attach, advertise]").Should().Be("fails");
    }

    [Theory]
    [InlineData("", "discover-cable EPR, advertise", "")]
    [InlineData("", "discover-cable 5A, advertise", "fails")]
    [InlineData("", "discover-cable 3A, advertise", "fails")]
    [InlineData("cable: captive", "discover-cable 5A, advertise", "")]
    [InlineData("records_sop: [SOP, SOP']", "advertise", "fails")]
    [InlineData("", "advertise", "cannot tell")]
    [InlineData("records_sop: [SOP]", "advertise", "")]
    [InlineData("records_sop: [SOP]\ncable: 5A", "advertise", "cannot tell")] // stated to be none
    [InlineData("records_sop: [SOP]\ncable: EPR", "advertise", "")]
    [InlineData("", "discover-cable silent, advertise", "fails")]
    [InlineData("", "discover-cable 5A captive, advertise", "cannot tell")] // it may be the source's own
    [InlineData("", "raw cable SOP' 8F51 41A000FF 00006018 00000000 00000000 43260A11, advertise", "")] // 0x110A2643
    [InlineData("", "raw cable SOP' 8F51 41A000FF 00006018 00000000 00000000 43260811, advertise", "fails")] // no EPR bit
    [InlineData("", "raw cable SOP' 8F51 41A000FF 00006018 00000000 00000000 43240A11, advertise", "fails")] // 40 V
    [InlineData("", "raw cable SOP' 8F51 41A000FF 00006018 00000000 00000000 23260A11, advertise", "fails")] // 3 A
    [InlineData("", "raw cable SOP' 4F51 418000FF 00006018 00000000 00000000 50000811, advertise", "cannot tell")] // R2.0
    public void EprMode_NeedsAnEprCable(string header, string steps, string expected) =>
        Found("epr-entered-without-epr-cable", header, $"attach, {steps}, contract 4 at 5A epr, {EnterEpr}").Should().Be(expected);

    [Fact]
    public void EprModeInACaptureThatBeginsLate_CannotBeTold() =>
        Found("epr-entered-without-epr-cable", "", $"advertise, contract 4 at 5A epr, {EnterEpr}, discover-cable EPR").Should().Be("cannot tell");

    [Fact]
    public void EprModeThatFails_IsWhatItShouldBe() =>
        Found("epr-entered-without-epr-cable", "cable: 5A", "attach, advertise, contract 4 at 5A epr, enter-epr at 140W").Should().BeEmpty();

    // ID headers: 0x18600000 passive cable, 0x20600000 active, 0x30600000 VCONN-powered device, each with a plug.
    [Theory]
    [InlineData("00006018", "40200811", "")]
    [InlineData("00006018", "43260A11", "")]
    [InlineData("00006018", "43260811", "")] // 50 V without the EPR bit is no contradiction
    [InlineData("00006018", "00200811", "cannot tell")] // current code 0
    [InlineData("00006018", "60200811", "cannot tell")] // current code 3
    [InlineData("00006018", "40200A11", "cannot tell")] // EPR with 20 V
    [InlineData("00006018", "20260A11", "cannot tell")] // EPR with 3 A
    [InlineData("00006018", "40220811", "note")] // voltage code 1
    [InlineData("00006018", "40240811", "note")] // voltage code 2
    [InlineData("00006018", "40200011", "note")] // plug code 0
    [InlineData("00006018", "40200411", "note")] // plug code 1
    [InlineData("00006018", "40200C11", "")] // captive
    [InlineData("00006018", "40300811", "note")] // termination code 2 of a passive cable
    [InlineData("00006018", "40280811", "")] // termination code 1
    [InlineData("00006018", "40200811 00000000", "note")] // one object too many
    [InlineData("00006018", "", "cannot tell")] // nothing that says what it carries
    [InlineData("00006020", "50300811 00000000", "")] // active cable: termination code 2, VBUS through
    [InlineData("00006020", "50300811", "note")] // one object too few
    [InlineData("00006020", "00300811 00000000", "")] // no VBUS: its current says nothing
    [InlineData("00006020", "10300811 00000000", "cannot tell")] // VBUS without a current
    [InlineData("00006020", "50200811 00000000", "note")] // termination code 0 of an active cable
    [InlineData("00006030", "00000000", "")] // VCONN-powered device
    [InlineData("00006000", "40200811", "note")] // product type 0
    [InlineData("00006028", "40200811", "note")] // product type 5
    public void Marker_IsHeldAgainstItself(string id, string vdos, string expected)
    {
        int objects = 4 + vdos.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length;
        Found("cable-identity-inconsistent", "", $"attach, raw cable SOP' 8F{objects}1 41A000FF {id} 00000000 00000000 {vdos}, advertise")
            .Should().Be(expected);
    }

    [Theory]
    [InlineData("20000811", "")] // 3 A
    [InlineData("00000811", "")] // default USB power (from memory)
    [InlineData("60000811", "note")]
    [InlineData("40060811", "")] // directions, no voltage
    [InlineData("40000A11", "")] // a reserved bit, no EPR
    public void MarkerOfRevision2_HasNoVoltageAndNoEpr(string vdo, string expected) => Found(
        "cable-identity-inconsistent", "", $"attach, raw cable SOP' 4F51 418000FF 00000018 00000000 00000000 {vdo}, advertise").Should().Be(expected);

    [Theory]
    [InlineData("cable: 3A detachable", "discover-cable 5A", "cannot tell")]
    [InlineData("cable: 5A detachable", "discover-cable 3A", "cannot tell")]
    [InlineData("cable: 5A detachable", "discover-cable EPR", "cannot tell")]
    [InlineData("cable: EPR detachable", "discover-cable EPR detachable", "")]
    [InlineData("cable: 5A captive", "discover-cable 5A", "note")]
    [InlineData("cable: 5A captive", "discover-cable 5A captive", "")]
    [InlineData("cable: 5A detachable", "discover-cable 5A captive", "note")]
    [InlineData("cable: 5A detachable", "discover-cable 5A", "")]
    [InlineData("", "discover-cable 5A, discover-cable 3A", "cannot tell")] // another answer without a detach
    [InlineData("", "discover-cable 5A, detach, attach, discover-cable 3A", "")]
    [InlineData("", "discover-cable 5A, discover-cable 5A", "")]
    public void Marker_IsHeldAgainstWhatIsStatedAndSaidBefore(string header, string steps, string expected) =>
        Found("cable-identity-inconsistent", header, $"attach, {steps}, advertise").Should().Be(expected);

    [Theory]
    [InlineData("58300811", "58300811", "")] // SOP'' controller present
    [InlineData("58300811", "38300811", "cannot tell")] // 5 A here, 3 A there
    [InlineData("50300811", "50300811", "note")] // no SOP'' controller, and yet an answer
    public void TwoPlugs_SayTheSame(string near, string far, string expected) => Found(
        "cable-identity-inconsistent", "",
        $"attach, raw cable SOP' 8F61 41A000FF 00006020 00000000 00000000 {near} 00000000, "
            + $"raw cable SOP'' 8F61 41A000FF 00006020 00000000 00000000 {far} 00000000, advertise").Should().Be(expected);

    [Fact]
    public void KernelLog_NeverShowsTheCableAndAccusesNobody()
    {
        foreach (string name in new[] { "sysfs-pd1.txt" })
        {
            CaptureRun.RealLog(name).Findings.Should().NotContain(finding => finding.Rule == "five-amp-offer-without-cable-check");
        }
    }

    private static string Found(string rule, string header, string steps) =>
        Judge(rule, $"{header}\n{Charger}\nsteps: [{steps}]");

    private static string Judge(string rule, string script)
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "capture" });
        analyzer.Write(Synthesised.Bytes(script));
        return string.Join(", ", GoldenFindings.Check(analyzer.Complete().Findings).Where(finding => finding.Rule == rule).Select(finding => finding.Verdict switch
        {
            Verdict.Fails => "fails",
            Verdict.CannotTell => "cannot tell",
            _ => "note",
        }));
    }
}
