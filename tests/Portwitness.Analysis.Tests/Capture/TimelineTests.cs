using System.Globalization;
using System.Text;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Following.Contracts;

namespace Portwitness.Analysis.Tests.Capture;

/// <summary>The folded conversation. Headers and words are those of shared/vectors, or computed from Tables 6.1 and 6.25.</summary>
public class TimelineTests
{
    private const string Header = "{\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\"]}\n";

    // 5 V 3 A, 9 V 3 A and PPS 3.3 V to 11 V 3 A; R5-like request for object 3: PPS 9.00 V 3 A.
    private const string List = "A1312C9101082CD102003C21DCC0";

    [Fact]
    public void GoodCrcs_AreFoldedIntoWhatTheyAnswer()
    {
        TimelineEntry[] lines = Lines(
            (0, "SOP", List), (500, "SOP", "8100"), (2000, "SOP", "82103C840333"), (2500, "SOP", "A101"), (4000, "SOP", "A303"));

        lines.Select(line => (line.Name, line.Direction, line.Acknowledged)).Should().Equal(
            ("Source_Capabilities", "source → sink", true), ("Request", "sink → source", true), ("Accept", "source → sink", false));
        lines[1].Meaning.Should().Be("asks for object 3: 9 V 3 A");
        lines.Select(line => line.GapUs).Should().Equal(0, 2000, 2000);
    }

    // R3.2v1.1 6.7.1: a retry has the same MessageID.
    [Fact]
    public void Retries_AreCounted()
    {
        TimelineEntry[] lines = Lines((0, "SOP", List), (1200, "SOP", List), (2400, "SOP", List), (2600, "SOP", "8100"));

        lines.Should().ContainSingle().Which.Retries.Should().Be(2);
        lines[0].Acknowledged.Should().BeTrue();
    }

    // R3.2v1.1 6.6: a PPS sink repeats its request at least every 10 s (tPPSRequest).
    [Fact]
    public void KeepAlive_IsOneTurnAndOneContract()
    {
        List<(long, string, string)> messages = [(0, "SOP", List)];
        for (int round = 0; round < 720; round++)
        {
            long at = 10_000 + (round * 9_000_000L);
            int id = round % 8;
            messages.Add((at, "SOP", Id("8210", id) + "3C840333"));
            messages.Add((at + 2000, "SOP", Id("A303", id)));
            messages.Add((at + 20_000, "SOP", Id("A605", id)));
        }

        CaptureAnalysis analysis = Analyse([.. messages]);

        analysis.Timeline.Should().HaveCount(4);
        analysis.Timeline.Skip(1).Select(line => line.Repeats).Should().Equal(719, 719, 719);
        ContractAttempt contract = analysis.Contracts.Should().ContainSingle().Subject;
        (contract.Outcome, contract.Renewals).Should().Be((ContractOutcome.Ready, 719));
    }

    [Fact]
    public void TurnThatBreaksOff_LosesNothing()
    {
        TimelineEntry[] lines = Lines(
            (0, "SOP", "8210" + "3C840333"), (1, "SOP", "A303"), (2, "SOP", "A605"),
            (3, "SOP", "8212" + "3C840333"), (4, "SOP", "A305"), (5, "SOP", "A407"));

        lines.Select(line => line.Name).Should().Equal("Request", "Accept", "PS_RDY", "Request", "Accept", "Reject");
        lines.Should().OnlyContain(line => line.Repeats == 0);
    }

    [Fact]
    public void HardReset_EndsTheContract()
    {
        CaptureAnalysis analysis = CaptureRun.Text(
            Header + Line(0, "SOP", List) + Line(10, "SOP", "82103C840333") + Line(20, "SOP", "A303") + Line(30, "SOP", "A605")
            + "{\"t\":40,\"signal\":\"hard-reset\"}\n");

        ContractAttempt contract = analysis.Contracts.Should().ContainSingle().Subject;
        (contract.Outcome, contract.EndedUs, contract.End).Should().Be((ContractOutcome.Ready, 40L, ContractEnd.HardReset));
        analysis.Timeline[^1].Name.Should().Be("Hard Reset");
    }

    [Fact]
    public void AnotherRequest_ReplacesTheContract()
    {
        CaptureAnalysis analysis = Analyse(
            (0, "SOP", List), (10, "SOP", "82103C840333"), (20, "SOP", "A303"), (30, "SOP", "A605"),
            (40, "SOP", "82122CB10423"), (50, "SOP", "A307"), (60, "SOP", "A609"));

        analysis.Contracts.Select(c => (c.ObjectPosition, c.EndedUs, c.End)).Should().Equal(
            (3, 60L, ContractEnd.Replaced), (2, null, ContractEnd.Open));
    }

    [Fact]
    public void ManyDifferentLines_StayBounded()
    {
        StringBuilder text = new(Header);
        for (int index = 0; index < 5000; index++)
        {
            text.Append(Line(index, "SOP", $"2F10{index:X8}"));
        }

        CaptureAnalysis analysis = CaptureRun.Text(text.ToString());
        analysis.Timeline.Length.Should().Be(2000);
        analysis.Faults.Should().Contain(fault => fault.Code == "not-all-listed");
    }

    // R3.2v1.1 6.4.12: RMDO 0x31180000 is R3.1v1.8. It settles the edition for lists that came before it.
    [Fact]
    public void RevisionMessage_SettlesTheEdition()
    {
        CaptureAnalysis analysis = Analyse((0, "SOP", List), (10, "SOP", "AC1300001831"));

        analysis.Editions.Should().Be(PowerDelivery.Limits.Editions.R31);
        analysis.Findings.Should().BeEmpty();
    }

    // R3.2v1.1 Table 6.51: SIDO 0x80414141 is guaranteed, 65 W; the list of 27 W then lacks voltages.
    [Fact]
    public void SourceInfo_DeclaresThePdp()
    {
        CaptureAnalysis analysis = Analyse((0, "SOP", List), (10, "SOP", "AB1341414180"));

        analysis.Advertisements[0].PdpBasis.Should().Be(PdpBasis.Declared);
        analysis.Findings.Single(f => f.Rule == "normative-voltage-missing").FurtherPlaces.Should().HaveCount(1);
    }

    private static string Id(string header, int id) =>
        header[..2] + (byte.Parse(header[2..], NumberStyles.HexNumber, CultureInfo.InvariantCulture) & 0xF1 | (id << 1)).ToString("X2", CultureInfo.InvariantCulture);

    private static TimelineEntry[] Lines(params (long, string, string)[] messages) => [.. Analyse(messages).Timeline];

    private static CaptureAnalysis Analyse(params (long Time, string Sop, string Hex)[] messages) =>
        CaptureRun.Text(Header + string.Concat(messages.Select(m => Line(m.Time, m.Sop, m.Hex))));

    private static string Line(long time, string sop, string hex) => $"{{\"t\":{time},\"sop\":\"{sop}\",\"hex\":\"{hex}\"}}\n";
}
