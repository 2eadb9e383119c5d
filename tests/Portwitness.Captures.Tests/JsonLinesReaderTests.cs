using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests;

/// <summary>Source of what is expected: captures/FORMAT.md.</summary>
public class JsonLinesReaderTests
{
    private const string Header = "{\"capture\":1}\n";

    [Fact]
    public void FullHeader_IsReadMemberByMember()
    {
        CaptureHeader header = Recording.OfFile("bench.capture.jsonl").Header;

        header.Format.Should().Be("capture");
        header.Port.Should().Be("C1");
        header.InUse.Should().Equal("C1");
        header.AttachOrder.Should().Equal("C1");
        header.Started.Should().Be(new DateTimeOffset(2026, 3, 2, 9, 14, 7, TimeSpan.Zero));
        header.Product.Should().Be("Tarnholt TH-65 wall charger");
        header.Sample.Should().Be("3");
        header.Cable.Should().Be(new CaptureCable(false, 5000, false));
        header.Edition.Should().Be("R3.2");
        header.OriginName.Should().Be("capture");
    }

    [Fact]
    public void EveryKindOfRecord_IsHandedOnInOrder()
    {
        Recording read = Recording.OfFile("bench.capture.jsonl");

        read.Faults.Should().BeEmpty();
        read.Messages.Should().HaveCount(7);
        read.Messages[0].Should().Be(new KeptMessage(
            300000, 5, SopKind.Sop, "A1412C9101082CD102002CB1040045410600", "", 0x8A164F42, true, ""));
        read.Messages[5].Sop.Should().Be(SopKind.SopPrime);
        read.Messages[6].CrcOk.Should().BeFalse();
        read.Signals.Should().Equal(new SignalRecord(700000, 13, SignalKind.HardReset));
        read.Measurements.Should().Equal(
            new MeasurementRecord(150000, 4, 5081, 0), new MeasurementRecord(510000, 11, 19960, 3240));
        read.Events.Select(e => (e.Name, e.Port, e.Value)).Should().Equal(
            ("rp", null, "3A"), ("attach", "C1", null), ("load-on", null, null), ("line", null, "bc1.2-dcp"),
            ("detach", null, null));
    }

    // CRC bytes on the wire of GoodCRC, from the standard's algorithm by zlib: F5 BB 41 63 for 0x6341BBF5.
    [Fact]
    public void Crc_IsInTheOrderOfTheWire()
    {
        Recording read = Recording.Of(Header + "{\"t\":0,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc\":\"f5bb4163\"}");

        read.Messages.Single().Crc.Should().Be(0x6341BBF5u);
        read.Messages.Single().CrcOk.Should().BeNull();
    }

    [Theory]
    [InlineData("SOP", SopKind.Sop)]
    [InlineData("SOP'", SopKind.SopPrime)]
    [InlineData("SOP''", SopKind.SopDoublePrime)]
    [InlineData("SOP'_Debug", SopKind.SopPrimeDebug)]
    [InlineData("SOP''_Debug", SopKind.SopDoublePrimeDebug)]
    [InlineData("SOP\\u0027", SopKind.SopPrime)]
    public void SopKinds_AreReadByTheStandardsNames(string text, SopKind kind) =>
        Recording.Of(Header + $"{{\"t\":0,\"sop\":\"{text}\",\"hex\":\"8100\"}}").Messages.Single().Sop.Should().Be(kind);

    [Fact]
    public void KnownMask_ComesWithTheMessage()
    {
        Recording read = Recording.Of(Header + "{\"t\":0,\"sop\":\"SOP\",\"hex\":\"A1112C910108\",\"known\":\"FFFFFFFF0FFE\"}");

        read.Messages.Single().Known.Should().Be("FFFFFFFF0FFE");
    }

    [Fact]
    public void ByteOrderMarkCrlfBlankLinesAndNoLastEnd_ChangeNothingButLines()
    {
        const string plain = "{\"capture\":1,\"port\":\"C1\"}\n{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\"}\n{\"t\":2,\"rp\":\"3A\"}\n";
        Recording expected = Recording.Of(plain);

        Recording.Of("\uFEFF" + plain).Calls.Should().Equal(expected.Calls);
        Recording.Of(plain.ReplaceLineEndings("\r\n")).Calls.Should().Equal(expected.Calls);
        Recording.Of(plain.TrimEnd()).Calls.Should().Equal(expected.Calls);
        Recording spaced = Recording.Of("\r\n\n" + plain.Replace("\n", "\n \t\n", StringComparison.Ordinal));
        spaced.Faults.Should().BeEmpty();
        spaced.Messages.Single().Line.Should().Be(5);
    }

    [Fact]
    public void OneLineWithSeveralThings_GivesEachOfThem()
    {
        Recording read = Recording.Of(Header
            + "{\"t\":7,\"sop\":\"SOP\",\"hex\":\"8100\",\"vbus_mv\":5000,\"event\":\"attach\",\"port\":\"C2\",\"rp\":\"3A\",\"signal\":\"cable-reset\"}");

        read.Faults.Should().BeEmpty();
        read.Messages.Should().ContainSingle();
        read.Signals.Single().Kind.Should().Be(SignalKind.CableReset);
        read.Measurements.Single().Should().Be(new MeasurementRecord(7, 2, 5000, null));
        read.Events.Should().Equal(
            new EventRecord(7, 2, "attach", "C2", null), new EventRecord(7, 2, "rp", "C2", "3A"));
    }

    [Fact]
    public void UnknownMembers_AreKeptAndIgnored()
    {
        Recording read = Recording.Of(
            "{\"capture\":1,\"operator\":{\"name\":\"x\"}}\n"
            + "{\"note\":\"a\",\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"port\":\"C1\",\"x\":[1, 2]}\n{\"t\":2,\"signal\":\"hard-reset\",\"sop\":\"SOP\"}");

        read.FaultCodes.Should().Equal(FaultCodes.HeaderMemberUnknown);
        read.Header.Extra.Should().Be("{\"operator\":{\"name\":\"x\"}}");
        read.Messages.Single().Extra.Should().Be("{\"note\":\"a\",\"x\":[1, 2],\"port\":\"C1\"}");
        read.Signals.Single().Extra.Should().Be("{\"sop\":\"SOP\"}");
    }

    [Fact]
    public void NullMembers_AreAsIfAbsent()
    {
        Recording read = Recording.Of(
            "{\"capture\":1,\"port\":null,\"cable\":{\"kind\":null}}\n"
            + "{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc\":null,\"crc_ok\":null,\"known\":null,\"event\":null}");

        read.Faults.Should().BeEmpty();
        read.Header.Port.Should().BeNull();
        read.Header.Cable.Should().Be(new CaptureCable(null, null, null));
        read.Messages.Single().Should().Be(new KeptMessage(1, 2, SopKind.Sop, "8100", "", null, null, ""));
        read.Events.Should().BeEmpty();
    }

    [Fact]
    public void TimeBefore_KeepsTheRecordAtTheTimeAbove()
    {
        Recording read = Recording.Of(
            Header + "{\"t\":50,\"rp\":\"3A\"}\n{\"t\":49,\"sop\":\"SOP\",\"hex\":\"8100\"}\n{\"t\":50,\"rp\":\"1.5A\"}");

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((3, "time-backwards"));
        read.Messages.Single().TimeUs.Should().Be(50);
        read.Events[1].TimeUs.Should().Be(50);
    }

    [Theory]
    [InlineData("{\"rp\":\"3A\"}", 1)]
    [InlineData("{\"t\":-1,\"rp\":\"3A\"}", 6)]
    [InlineData("{\"t\":1.5,\"rp\":\"3A\"}", 6)]
    [InlineData("{\"t\":\"9\",\"rp\":\"3A\"}", 6)]
    [InlineData("{\"t\":9007199254740992,\"rp\":\"3A\"}", 6)]
    [InlineData("{\"t\":99999999999999999999,\"rp\":\"3A\"}", 6)]
    public void TimeThatCannotBeUsed_KeepsTheRecordAtTheTimeAbove(string line, int column)
    {
        Recording read = Recording.Of(Header + "{\"t\":50,\"rp\":\"1.5A\"}\n" + line);

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((3, column, "time-invalid"));
        read.Events[1].Should().Be(new EventRecord(50, 3, "rp", null, "3A"));
    }
}
