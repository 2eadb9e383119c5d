using System.Text;

namespace Portwitness.Captures.Tests;

/// <summary>Source of what is expected: captures/FORMAT.md. After each broken line, a good one
/// must still be read. A ^ marks the column where the fault is expected.</summary>
public class JsonLinesFaultTests
{
    private const string Header = "{\"capture\":1}\n";
    private const string Good = "\n{\"t\":9,\"sop\":\"SOP\",\"hex\":\"8100\"}\n";

    [Theory]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A16^\"}", "hex-invalid")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1^G2\"}", "hex-invalid")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1^ 2C\"}", "hex-invalid")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"^\\u0041123\"}", "hex-invalid")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":^4102}", "hex-invalid")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"^\"}", "hex-length")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"^A1\"}", "hex-length")]
    [InlineData("{\"t\":1,\"sop\":^\"SOPX\",\"hex\":\"8100\"}", "member-invalid")]
    [InlineData("^{\"t\":1,\"hex\":\"8100\"}", "member-missing")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"known\":^\"FF\"}", "known-invalid")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"known\":^\"FFFG\"}", "known-invalid")]
    [InlineData("{\"t\":1,\"signal\":^\"soft-reset\"}", "member-invalid")]
    [InlineData("{\"t\":1,\"vbus_mv\":^5.01}", "member-invalid")]
    [InlineData("{\"t\":1,\"ibus_ma\":^1000001}", "member-invalid")]
    [InlineData("{\"t\":1,\"event\":^[1]}", "member-invalid")]
    [InlineData("^{\"t\":1,\"temperature_c\":31}", "record-unknown")]
    [InlineData("^{}", "record-unknown")]
    [InlineData("{\"t\":1^", "json-invalid")]
    [InlineData("{\"t\":1,^}", "json-invalid")]
    [InlineData("{\"t\":1,\"rp\":\"3A\"} ^x", "json-invalid")]
    [InlineData("{\"t\":1,\"rp\":^\"\\ud800\"}", "json-invalid")]
    [InlineData("^[1]", "json-invalid")]
    [InlineData("^null", "json-invalid")]
    [InlineData("^what", "json-invalid")]
    public void BrokenLine_IsReportedWithItsPlaceAndGivesNothing(string line, string code)
    {
        int column = Unmark(ref line);
        Recording read = Recording.Of(Header + line + Good);

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((2, column, code));
        read.Messages.Single().Line.Should().Be(3);
        (read.Signals.Count + read.Measurements.Count + read.Events.Count).Should().Be(0);
    }

    [Fact]
    public void HexOfOddLength_SaysWhereAndWhatToDoWordForWord() =>
        Recording.Of(Header + "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1\u001bG\"}").Faults.Single().Detail.Should()
            .Be("The JSON breaks at '\\x1BG\"}'; the line was not read.");

    [Theory]
    [InlineData(1024, 1)]
    [InlineData(1025, 0)]
    public void LongMessage_IsReadUpToTheBound(int bytes, int read) =>
        Recording.Of(Header + $"{{\"t\":1,\"sop\":\"SOP\",\"hex\":\"{new string('A', 2 * bytes)}\"}}").Messages.Should().HaveCount(read);

    [Fact]
    public void CrcThatCannotBeRead_LeavesTheMessageWithoutIt()
    {
        Recording read = Recording.Of(Header + "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc\":\"12345\"}");

        read.FaultCodes.Should().Equal("member-invalid");
        read.Messages.Single().Crc.Should().BeNull();
    }

    [Fact]
    public void CrcOkThatIsNeitherTrueNorFalse_IsTakenForFalse()
    {
        Recording read = Recording.Of(Header + "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc_ok\":\"no\"}");

        read.FaultCodes.Should().Equal("member-invalid");
        read.Messages.Single().CrcOk.Should().BeFalse();
    }

    [Fact]
    public void MemberThatStandsTwice_CountsOnce()
    {
        Recording read = Recording.Of(Header + "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"hex\":\"4102\"}");

        read.Faults.Select(f => (f.Column, f.Code)).Should().Equal((33, "member-repeated"));
        read.Messages.Single().Hex.Should().Be("8100");
    }

    [Fact]
    public void EventWithAnotherWord_IsPassedOn()
    {
        Recording read = Recording.Of(Header + "{\"t\":1,\"event\":\"lid-open\"}");

        read.FaultCodes.Should().Equal("event-unknown");
        read.Events.Single().Name.Should().Be("lid-open");
    }

    [Fact]
    public void BytesThatAreNoUtf8_LoseTheirLineOnly()
    {
        byte[] input = [.. Encoding.UTF8.GetBytes(Header + "{\"t\":1,\"rp\":\"3"), 0xC3, 0x28, .. Encoding.UTF8.GetBytes("\"}" + Good)];

        Recording read = Recording.Of(input);

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((2, 15, "text-not-utf8"));
        read.Messages.Should().ContainSingle();
    }

    [Fact]
    public void NoHeader_IsReportedOnceAndRecordsAreRead()
    {
        Recording read = Recording.Of("{\"t\":1,\"rp\":\"3A\"}" + Good);

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((1, "header-missing"));
        read.Header.Should().Be(new CaptureHeader { Format = "capture" });
        read.Messages.Should().ContainSingle();
        read.Events.Should().ContainSingle();
    }

    [Fact]
    public void NothingButBrokenLines_StillGivesAHeader()
    {
        Recording read = Recording.Of("{broken");

        read.FaultCodes.Should().Equal("json-invalid", "header-missing");
        read.Headers.Should().ContainSingle();
    }

    [Fact]
    public void HeaderAfterABrokenLine_IsTaken()
    {
        Recording read = Recording.Of("{broken\n{\"capture\":1,\"port\":\"C1\"}" + Good);

        read.FaultCodes.Should().Equal("json-invalid");
        read.Header.Port.Should().Be("C1");
        read.Messages.Should().ContainSingle();
    }

    [Fact]
    public void SecondHeader_EndsTheReading()
    {
        Recording read = Recording.Of("{\"capture\":1,\"port\":\"C1\"}" + Good + "{\"capture\":1,\"port\":\"C2\"}" + Good);

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((3, "header-misplaced"));
        read.Messages.Should().ContainSingle();
        read.Header.Port.Should().Be("C1");
    }

    [Theory]
    [InlineData("2")]
    [InlineData("0")]
    [InlineData("1.5")]
    [InlineData("99999999999")]
    public void OtherVersion_IsNotRead(string version)
    {
        Recording read = Recording.Of($"{{\"capture\":{version},\"port\":\"C1\"}}" + Good);

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((1, 12, "header-version"));
        read.Messages.Should().BeEmpty();
    }

    [Theory]
    [InlineData("\"capture\":^\"1\"")]
    [InlineData("\"capture\":1,\"port\":^7")]
    [InlineData("\"capture\":1,\"in_use\":^\"C1\"")]
    [InlineData("\"capture\":1,\"in_use\":[\"C1\",^2]")]
    [InlineData("\"capture\":1,\"started\":^\"2026-03-02\"")]
    [InlineData("\"capture\":1,\"started\":^\"2026-03-02T09:14:07\"")]
    [InlineData("\"capture\":1,\"cable\":^\"captive\"")]
    [InlineData("\"capture\":1,\"cable\":{\"kind\":^\"fixed\"}")]
    [InlineData("\"capture\":1,\"cable\":{\"current_a\":^4}")]
    [InlineData("\"capture\":1,\"cable\":{\"epr\":^[]}")]
    [InlineData("\"capture\":1,\"edition\":^\"3\"")]
    public void HeaderMemberOfAWrongType_IsNotStatedAndTheRestIsRead(string members)
    {
        string line = "{" + members + ",\"sample\":\"3\"}";
        int column = Unmark(ref line);

        Recording read = Recording.Of(line + Good);

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((1, column, "member-invalid"));
        read.Header.Sample.Should().Be("3");
        (read.Header with { Sample = null, Cable = null }).Should().Be(new CaptureHeader { Format = "capture" });
        read.Messages.Should().ContainSingle();
    }

    [Fact]
    public void FaultsBeyondAThousand_AreCounted()
    {
        Recording read = Recording.Of(Header + string.Concat(Enumerable.Repeat("x\n", 2500)) + Good);

        read.Faults.Should().HaveCount(1001);
        read.Faults[^1].Code.Should().Be("faults-omitted");
        read.Faults[^1].Line.Should().Be(1002);
        read.Faults[^1].Detail.Should().StartWith("1500 more faults from line 1002 on");
        read.Messages.Should().ContainSingle();
    }

    /// <summary>Takes the mark out of a line, and says in which column it stood.</summary>
    private static int Unmark(ref string line)
    {
        int at = line.IndexOf('^', StringComparison.Ordinal);
        line = line.Remove(at, 1);
        return at + 1;
    }
}
