using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Tests.Capture;

/// <summary>What is learned from a capture's records. Words are those of shared/vectors.</summary>
public class CaptureAnalyzerTests
{
    private const string Header = "{\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\"]}\n";

    // Source_Capabilities of 5 V 3 A and 9 V 3 A, R3.x, and of 5 V 3 A alone.
    private const string TwoObjects = "A1212C9101082CD10200";
    private const string OneObject = "A1112C910108";

    [Fact]
    public void WrongCrc_IsKeptButNothingIsLearned()
    {
        CaptureAnalysis analysis = CaptureRun.Text(
            Header + $$"""
            {"t":1,"sop":"SOP","hex":"{{TwoObjects}}","crc_ok":false}
            {"t":2,"sop":"SOP","hex":"{{OneObject}}","crc":"00000000"}
            """);

        analysis.MessageCount.Should().Be(2);
        analysis.Advertisements.Should().BeEmpty();
        analysis.Faults.Should().BeEmpty();
        analysis.Findings.Should().OnlyContain(finding => finding.Rule == "crc-wrong" && finding.Severity == Severity.Caution);
    }

    // zlib: crc32 of header and word is 0xD1F9C7C4 for 0x0A01912C (fact of shared/vectors).
    [Fact]
    public void RightCrc_IsAccepted()
    {
        CaptureAnalysis analysis = CaptureRun.Text(
            Header + """{"t":1,"sop":"SOP","hex":"A1112C91010A","crc":"C4C7F9D1"}""");

        analysis.Advertisements.Should().ContainSingle();
        analysis.Faults.Should().BeEmpty();
    }

    [Fact]
    public void RepeatedList_IsCounted()
    {
        string line = $$"""{"t":1,"sop":"SOP","hex":"{{TwoObjects}}"}""" + "\n";
        CaptureAnalysis analysis = CaptureRun.Text(Header + line + line + line);

        analysis.Advertisements.Should().ContainSingle().Which.Repeats.Should().Be(2);
    }

    [Fact]
    public void NeighbourThatAttaches_ChangesTheArrangement()
    {
        CaptureAnalysis analysis = CaptureRun.Text(
            Header + $$"""
            {"t":1,"sop":"SOP","hex":"{{TwoObjects}}"}
            {"t":2,"event":"attach","port":"C2"}
            {"t":3,"sop":"SOP","hex":"{{OneObject}}"}
            {"t":4,"event":"detach","port":"C2"}
            {"t":5,"sop":"SOP","hex":"{{TwoObjects}}"}
            """);

        analysis.Advertisements.Select(list => string.Join('+', list.InUse)).Should().Equal("C1", "C1+C2", "C1");
    }

    // Table 6.41: passive cable, bits 6..5 = 01 is 3 A, 10 is 5 A; the cable's word goes before the operator's.
    [Theory]
    [InlineData("20200811", CableEvidence.ThreeAmpere, true)]
    [InlineData("40200811", CableEvidence.FiveAmpere, false)]
    public void CableMarker_SettlesTheCable(string vdo, CableEvidence expected, bool violation)
    {
        CaptureAnalysis analysis = CaptureRun.Text(
            "{\"capture\":1,\"cable\":{\"kind\":\"detachable\",\"current_a\":5}}\n" + $$"""
            {"t":1,"sop":"SOP'","hex":"8F5141A000FF000060180000000000000000{{vdo}}"}
            {"t":2,"sop":"SOP","hex":"A1412C9101082CD102002CB1040045410600"}
            """);

        analysis.CableEvidence.Should().Be(expected);
        analysis.Findings.Any(f => f.Rule == "current-above-3a-without-5a-cable").Should().Be(violation);
    }

    [Fact]
    public void StatedEdition_GoesBeforeTheHeaderOfMessages()
    {
        CaptureAnalysis analysis = CaptureRun.Text(
            "{\"capture\":1,\"edition\":\"R3.1\"}\n" + $$"""{"t":1,"sop":"SOP","hex":"{{TwoObjects}}"}""");

        analysis.Editions.Should().Be(Editions.R31);
    }

    [Fact]
    public void LyingHeader_KeepsTheObjectsThatAreThere()
    {
        CaptureAnalysis analysis = CaptureRun.Text(
            Header + """{"t":1,"sop":"SOP","hex":"A1712C9101082CD10200","crc_ok":true}""");

        analysis.Advertisements.Should().ContainSingle().Which.Objects.Should().HaveCount(2);
        analysis.Findings.Select(f => f.Rule).Should().Contain("object-count-differs-from-length");
    }

    // The reader lists a thousand faults and counts the others; the count is not lost on the way.
    [Fact]
    public void ManyFaults_AreCounted()
    {
        CaptureAnalysis analysis = CaptureRun.Text(Header + string.Concat(Enumerable.Repeat("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A\"}\n", 1500)));

        analysis.Faults.Should().HaveCount(1001);
        analysis.Faults.Should().Contain(fault => fault.Code == "faults-omitted" && fault.Detail.Contains("500"));
    }

    [Fact]
    public void ManyDifferentLists_StayBounded()
    {
        System.Text.StringBuilder text = new(Header);
        for (int index = 0; index < 3000; index++)
        {
            string list = index % 2 == 0 ? TwoObjects : $"A121{"2C910108"}{index % 250:X2}D10200";
            text.Append("{\"t\":").Append(index).Append(",\"sop\":\"SOP\",\"hex\":\"").Append(list).Append("\"}\n");
        }

        CaptureAnalysis analysis = CaptureRun.Text(text.ToString());
        analysis.Advertisements.Length.Should().Be(1000);
        analysis.Faults.Should().Contain(fault => fault.Code == "not-all-listed");
        analysis.MessageCount.Should().Be(3000);
    }
}
