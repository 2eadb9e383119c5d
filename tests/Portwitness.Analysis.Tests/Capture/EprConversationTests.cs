using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Contracts;

namespace Portwitness.Analysis.Tests.Capture;

/// <summary>
/// The chunked 140 W example of the fact base, byte for byte: frames, words and CRCs were computed from the bit tables of
/// R3.2v1.1 and with zlib (shared/vectors/frames.json).
/// </summary>
public class EprConversationTests
{
    private const string Header = "{\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\"]}\n";
    private const string Chunk0 = """{"t":1000,"sop":"SOP","hex":"B1F724802C9181082CD102002CB10400F4410600F4B104E0000000000000","crc":"2BAFA67D"}""" + "\n";
    private const string Ask = """{"t":2000,"sop":"SOP","hex":"9194008C0000","crc":"710751AB"}""" + "\n";
    private const string Chunk1 = """{"t":3000,"sop":"SOP","hex":"B1B924880000F4C108008C9630D2","crc":"42811086"}""" + "\n";
    private const string Request = """{"t":5000,"sop":"SOP","hex":"892AF4D14780F4C10800","crc":"082DDB6A"}""" + "\n";
    private const string Granted = """
        {"t":7000,"sop":"SOP","hex":"A30B"}
        {"t":307000,"sop":"SOP","hex":"A60D"}

        """;

    [Fact]
    public void ChunkedList_HasNinePositionsAndAnEprContract()
    {
        CaptureAnalysis analysis = CaptureRun.Text(Header + Chunk0 + Ask + Chunk1 + Request + Granted);

        Advertisement list = analysis.Advertisements.Should().ContainSingle().Subject;
        list.Message.Name.Should().Be("EPR_Source_Capabilities");
        list.Objects.Select(offered => offered.Raw).Should().Equal(
            0x0881912C, 0x0002D12C, 0x0004B12C, 0x000641F4, 0xE004B1F4, 0u, 0u, 0x0008C1F4, 0xD230968C);
        ContractAttempt contract = analysis.Contracts.Should().ContainSingle().Subject;
        (contract.Outcome, contract.ObjectPosition, contract.Voltage?.Millivolts, contract.Current?.Milliamperes)
            .Should().Be((ContractOutcome.Ready, 8, 28_000, 5_000));
        analysis.Faults.Should().BeEmpty();
    }

    // EPR_Mode 0x03000000 Enter Succeeded, 0x05000000 Exit (Table 6.50).
    [Fact]
    public void Mode_IsThatOfTheRequest()
    {
        const string Again = """{"t":400000,"sop":"SOP","hex":"822C2CB10413"}""" + "\n";
        CaptureAnalysis analysis = CaptureRun.Text(
            Header + """{"t":500,"sop":"SOP","hex":"AA1500000003"}""" + "\n" + Chunk0 + Ask + Chunk1 + Request + Granted
            + """{"t":350000,"sop":"SOP","hex":"8A1C00000005"}""" + "\n" + Again);

        analysis.Contracts.Select(contract => contract.InEprMode).Should().Equal(true, false);
    }

    // R3.2v1.1 Table 6.54: byte 23 is the SPR rating, byte 24 the EPR rating; the larger one is the port's.
    [Fact]
    public void ExtendedCapabilities_DeclareTheRating()
    {
        string block = string.Concat(Enumerable.Repeat("00", 23)) + "1B" + "00";
        CaptureAnalysis analysis = CaptureRun.Text(
            Header + "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1212C9101082CD10200\"}\n"
            + "{\"t\":2,\"sop\":\"SOP\",\"hex\":\"A1F31980" + block + "00\"}\n");

        analysis.Advertisements[0].PdpBasis.Should().Be(PdpBasis.Declared);
        analysis.Advertisements[0].Pdp!.Value.ToString().Should().Be("27 W");
    }

    [Fact]
    public void MissingChunk_IsReportedAndTheRestIsRead()
    {
        CaptureAnalysis analysis = CaptureRun.Text(Header + Chunk0 + Request + Granted);

        analysis.Faults.Should().NotBeEmpty().And.OnlyContain(fault => fault.Code == "chunks-faulty");
        analysis.Contracts.Should().ContainSingle().Which.ObjectPosition.Should().Be(8);

        // 26 of 36 bytes: six objects, and half of the seventh.
        Advertisement list = analysis.Advertisements.Should().ContainSingle().Subject;
        list.Objects.Where(offered => offered.Known == uint.MaxValue).Should().HaveCount(6);
        analysis.Findings.Should().NotContain(finding => finding.Severity == Severity.Violation);
    }

    [Fact]
    public void ChunksOutOfOrder_AreReported()
    {
        CaptureAnalysis analysis = CaptureRun.Text(Header + Chunk1 + Chunk0.Replace("1000", "4000", StringComparison.Ordinal));

        analysis.Advertisements.SelectMany(list => list.Objects).Where(offered => offered.Position == 8 && offered.Known == uint.MaxValue)
            .Should().OnlyContain(offered => offered.Raw == 0x0008C1F4);
        analysis.Faults.Should().Contain(fault => fault.Code == "chunks-faulty");
    }

    // R3.2v1.1 Table 6.51: 0x0064413C is managed, maximum 100 W, present 65 W, reported 60 W.
    [Fact]
    public void SourceInfo_IsAFactWithItsMessage()
    {
        CaptureAnalysis analysis = CaptureRun.Text(Header + """{"t":10,"sop":"SOP","hex":"AB113C416400"}""");

        analysis.Facts.Should().OnlyContain(fact => fact.Message == "Source_Info" && fact.Sender == "source" && fact.MessageIndex == 1);
        analysis.Facts.Select(fact => fact.Value).Should().Contain(value => value.StartsWith("100 W", StringComparison.Ordinal))
            .And.Contain(value => value.StartsWith("65 W", StringComparison.Ordinal));
    }

    [Fact]
    public void Explanation_NamesTheSelectedObjectsUnits()
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "capture", ExplainIndex = 2 });
        analyzer.Write(System.Text.Encoding.UTF8.GetBytes(Header
            + "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1312C9101082CD102003C21DCC0\"}\n{\"t\":2,\"sop\":\"SOP\",\"hex\":\"82103C840333\"}\n"));

        ExplainedMessage explained = analyzer.Complete().Explanation!;
        explained.Message.Should().Be("Request");
        explained.Fields.Should().Contain(field => field.Name == "Output Voltage" && field.Meaning == "9 V (450 x 20 mV)");
    }
}
