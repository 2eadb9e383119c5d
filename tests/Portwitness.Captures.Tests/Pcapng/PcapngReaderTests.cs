using Portwitness.Captures.Formats;

namespace Portwitness.Captures.Tests.Pcapng;

/// <summary>Files that a hand-written builder made, after draft-ietf-opsawg-pcapng and captures/FORMAT.md.</summary>
public class PcapngReaderTests
{
    private const string Header = "{\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\",\"C2\"]}";

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void EveryKindOfRecord_IsReadInEitherByteOrder(bool big)
    {
        PcapngFile file = new(big);
        byte[] input = file.Section().Interface("C1", options: [file.Option(1, Header)])
            .Packet(
                [1, 1, 1, 0x8D, 2, 0, 0x41, 0x02, 0xFF, 0x0F, 0xDD, 0xCC, 0xBB, 0xAA, (byte)'{', (byte)'"', (byte)'a', (byte)'"', (byte)':', (byte)'1', (byte)'}'],
                5)
            .Packet([1, 2, 1, 0], 6)
            .Packet([1, 3, 0, 3, 0x94, 0x13, 0, 0, 0x20, 0xFE, 0xFF, 0xFF], 7)
            .Packet([1, 4, 0, 2, 2, 0, (byte)'r', (byte)'p', 2, 0, (byte)'3', (byte)'A'], 8)
            .ToArray();

        Recording read = Recording.Of(input);

        read.Faults.Should().BeEmpty();
        read.Format.Should().Be("pcapng");
        read.Header.Port.Should().Be("C1");
        read.Header.InUse.Should().Equal("C1", "C2");
        read.Header.OriginName.Should().Be("capture");
        read.Messages.Single().Should().Be(new KeptMessage(5, 1, PowerDelivery.Framing.SopKind.SopPrime, "4102", "FF0F", 0xAABBCCDD, null, "{\"a\":1}")
            with { CrcOk = false, Known = "FF0F" } with { CrcOk = null });
        read.Signals.Should().Equal(new SignalRecord(6, 2, SignalKind.CableReset));
        read.Measurements.Should().Equal(new MeasurementRecord(7, 3, 5012, -480));
        read.Events.Should().Equal(new EventRecord(8, 4, "rp", null, "3A"));
    }

    // isb_endtime of the draft: "96 c3 04 00 73 89 6a 65", little-endian, is 06/29/2012 06:17:00 UTC (from memory).
    [Fact]
    public void TimeOfTheDraftsExample_IsRead()
    {
        Recording read = Recording.Of(new PcapngFile().Section().Interface()
            .Packet(PcapngFile.Message, ((ulong)0x0004C396 << 32) | 0x656A8973).ToArray());

        read.Header.Started!.Value.ToString("MM/dd/yyyy HH:mm:ss").Should().Be("06/29/2012 06:17:00");
        read.Messages.Single().TimeUs.Should().Be(0);
    }

    // 2 s and 3.5 s, in steps of each resolution (if_tsresol: 10^-n, or 2^-n with the highest bit set).
    [Theory]
    [InlineData(0, 2, 4, 2_000_000, 1_000_000)]
    [InlineData(3, 2000, 3500, 1_500_000, 1000)]
    [InlineData(6, 2_000_000, 3_500_000, 1_500_000, null)]
    [InlineData(9, 2_000_000_000, 3_500_000_000, 1_500_000, null)]
    [InlineData(12, 2_000_000_000_000, 3_500_000_000_000, 1_500_000, null)]
    [InlineData(127, 1, 2, 0, null)]
    [InlineData(0x80, 2, 4, 2_000_000, 1_000_000)]
    [InlineData(0x81, 4, 7, 1_500_000, 500_000)]
    [InlineData(0x8A, 2048, 3584, 1_500_000, 976)]
    [InlineData(0xA0, 8_589_934_592, 15_032_385_536, 1_500_000, null)]
    [InlineData(0xFF, 1, 2, 0, null)]
    public void StampsOfAnyResolution_BecomeMicroseconds(byte resolution, ulong first, ulong second, long expected, int? step)
    {
        PcapngFile file = new();
        Recording read = Recording.Of(file.Section().Interface(options: [file.Option(9, [resolution])])
            .Packet(PcapngFile.Message, first).Packet(PcapngFile.Message, second).ToArray());

        read.Faults.Should().BeEmpty();
        read.Messages.Select(m => m.TimeUs).Should().Equal(0, expected);
        read.Header.ResolutionUs.Should().Be(step);
    }

    [Fact]
    public void OffsetOfTheInterface_IsAddedToItsStamps()
    {
        PcapngFile file = new(bigEndian: true);
        Recording read = Recording.Of(file.Section().Interface(options: [file.Option(14, file.U64(1_772_442_847))])
            .Packet(PcapngFile.Message, 250_000).Packet(PcapngFile.Message, 250_007).ToArray());

        read.Header.Started.Should().Be(DateTimeOffset.Parse("2026-03-02T09:14:07.25Z"));
        read.Messages.Select(m => m.TimeUs).Should().Equal(0, 7);
    }

    [Fact]
    public void StatedStart_IsTimeZero()
    {
        PcapngFile file = new();
        Recording read = Recording.Of(file.Section()
            .Interface(options: [file.Option(1, "{\"capture\":1,\"started\":\"2026-03-02T09:14:07Z\"}")])
            .Packet(PcapngFile.Message, 1_772_442_847_000_042).Packet(PcapngFile.Message, 1_772_442_846_999_999).ToArray());

        read.Messages.Select(m => m.TimeUs).Should().Equal(42, 42);
        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((2, "time-invalid"));
    }

    [Fact]
    public void RecordsOfSeveralPorts_AreThoseOfTheFirstAndTheOthersAreCounted()
    {
        byte[] input = TwoPorts();

        Recording first = Recording.Of(input);
        Recording second = Read(input, "c2");

        first.Header.Port.Should().Be("C1");
        first.Messages.Select(m => m.TimeUs).Should().Equal(0, 20);
        first.Faults.Single().Should().Be(new CaptureFault(
            0, 0, "pcapng-other-ports",
            "3 records of 'C2' were not read: a capture is of one port, here 'C1'. Give --port 'C2' to read them."));
        second.Header.Port.Should().Be("C2");
        second.Messages.Select(m => m.Line).Should().Equal(2, 4, 5);
        second.FaultCodes.Should().Equal("pcapng-other-ports");
    }

    [Fact]
    public void PortThatIsNotThere_IsReportedWithThoseThatAre()
    {
        Recording read = Read(TwoPorts(), "C3");

        read.Messages.Should().BeEmpty();
        read.FaultCodes.Should().Equal("pcapng-other-ports", "pcapng-other-ports", "pcapng-other-ports");
        read.Faults[^1].Detail.Should().StartWith("No port of the file is named 'C3'");
    }

    [Fact]
    public void FileOfOnePort_IsReadWhateverTheNameAskedFor()
    {
        Recording read = Read(new PcapngFile().Section().Interface("left").Packet(PcapngFile.Message).ToArray(), "C1");

        read.Faults.Should().BeEmpty();
        read.Header.Port.Should().Be("left");
        read.Messages.Should().ContainSingle();
    }

    [Fact]
    public void InterfaceWithoutAName_IsChosenByItsNumber() => Read(
        new PcapngFile().Section().Interface(null).Interface(null).Packet(PcapngFile.Message, port: 1).ToArray(), "1")
        .Messages.Should().ContainSingle();

    [Fact]
    public void PortDescribedLate_IsFound() => Read(
        new PcapngFile().Section().Interface("C1").Interface("C2").Packet(PcapngFile.Message).Interface("C3")
            .Packet(PcapngFile.Message, port: 2).ToArray(), "C3")
        .Messages.Should().ContainSingle();

    [Fact]
    public void InterfaceOfAnotherLinkType_IsLeftOutAndTheOthersRead()
    {
        Recording read = Recording.Of(new PcapngFile().Section().Interface("eth0", linkType: 1).Interface("C1")
            .Packet([1, 2, 3], port: 0).Packet(PcapngFile.Message, port: 1).ToArray());

        read.Messages.Should().ContainSingle();
        read.Faults.Single().Should().Be(new CaptureFault(
            0, 0, "pcapng-link-type",
            "Interface 0 (eth0) at byte 28 has link type 1; expected 147 (LINKTYPE_USER0) with records as captures/FORMAT.md defines "
            + "them. Its packets were left out. Other interfaces are read."));
    }

    [Fact]
    public void SectionsOfTheSameCapture_AreOneAlsoInDifferentByteOrders()
    {
        PcapngFile file = new();
        byte[] input = file.Section(big: false).Interface().Packet(PcapngFile.Message, 5)
            .Section(big: true).Interface("eth0", linkType: 1).Interface("C1").Packet(PcapngFile.Message, 9, port: 1).ToArray();

        Recording read = Recording.Of(input);

        read.FaultCodes.Should().Equal("pcapng-link-type");
        read.Messages.Select(m => (m.TimeUs, m.Line)).Should().Equal((0, 1), (4, 2));
    }

    [Fact]
    public void SectionWithAnotherHeader_IsNotRead()
    {
        PcapngFile file = new();
        byte[] input = file.Section().Interface(options: [file.Option(1, Header)]).Packet(PcapngFile.Message)
            .Section().Interface(options: [file.Option(1, "{\"capture\":1,\"in_use\":[\"C1\"]}")]).Packet(PcapngFile.Message).ToArray();

        Recording read = Recording.Of(input);

        read.Messages.Should().ContainSingle();
        read.FaultCodes.Should().Equal("header-misplaced", "pcapng-other-ports");
    }

    [Fact]
    public void OtherBlocks_ArePassedOverAndOnlyUnknownOnesAreCounted()
    {
        PcapngFile file = new();
        byte[] input = file.Section().Interface().Block(4, new byte[8]).Block(0xBAD, new byte[8]).Block(0x40000BAD, new byte[8])
            .Block(10, new byte[8]).Packet(PcapngFile.Message).Block(0x77, new byte[12]).Block(0x78, [])
            .Block(5, [.. file.U32(0), .. file.U64(0), .. file.Option(5, file.U64(3))]).OldPacket(PcapngFile.Message, 4).ToArray();

        Recording read = Recording.Of(input);

        read.Messages.Select(m => m.TimeUs).Should().Equal(0, 4);
        read.FaultCodes.Should().Equal("pcapng-drops", "pcapng-blocks-unknown");
        read.Faults[1].Detail.Should().Be("2 blocks of types that are not known here were passed over; the first is of type 0x00000077.");
    }

    [Fact]
    public void SimplePackets_AreKeptWithTheTimeBeforeAndReportedOnce()
    {
        Recording read = Recording.Of(new PcapngFile().Section().Interface(snap: 100).Packet(PcapngFile.Message, 7).Packet(PcapngFile.Message, 9)
            .SimplePacket(PcapngFile.Message).SimplePacket(PcapngFile.Message).ToArray());

        read.Messages.Select(m => m.TimeUs).Should().Equal(0, 2, 2, 2);
        read.FaultCodes.Should().Equal("time-invalid");
    }

    private static byte[] TwoPorts() => new PcapngFile().Section().Interface("C1").Interface("C2")
        .Packet(PcapngFile.Message, 100, 0).Packet(PcapngFile.Message, 110, 1).Packet(PcapngFile.Message, 120, 0)
        .Packet(PcapngFile.Message, 130, 1).Packet(PcapngFile.Message, 140, 1).ToArray();

    private static Recording Read(byte[] input, string port) => Recording.Of(input, options: new CaptureReadOptions { Port = port });
}
