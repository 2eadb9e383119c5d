using System.Buffers.Binary;
using CsCheck;
using Portwitness.Captures.Formats;

namespace Portwitness.Captures.Tests.Pcapng;

/// <summary>Files that lie, break off, or mean harm.</summary>
public class PcapngFaultTests
{
    [Fact]
    public void FileCutAnywhere_GivesWhatIsBeforeAndNamesTheBlock()
    {
        byte[] whole = new PcapngFile().Section().Interface().Packet(PcapngFile.Message, 5).Packet(PcapngFile.Message, 6).ToArray();
        int[] starts = [0, 28, 56, 96, 136];
        whole.Length.Should().Be(starts[^1]);
        for (int length = 12; length < whole.Length; length++)
        {
            Recording read = Recording.Of(whole.AsSpan(0, length));

            read.Messages.Should().HaveCount(Math.Max(0, Array.FindLastIndex(starts, start => start <= length) - 2));
            read.Headers.Should().ContainSingle();
            if (starts.Contains(length))
            {
                read.Faults.Should().BeEmpty();
            }
            else
            {
                read.Faults.Single().Should().Match<CaptureFault>(fault => fault.Code == "pcapng-cut"
                    && fault.Detail.StartsWith($"At byte {starts.Last(start => start < length)} begins"));
            }
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(8)]
    [InlineData(13)]
    [InlineData(0xFFFFFFFF)]
    public void LengthThatNoBlockHas_EndsTheReading(uint length)
    {
        Recording read = Recording.Of(new PcapngFile().Section().Interface().Packet(PcapngFile.Message)
            .Block(0x77, new byte[4], length).Packet(PcapngFile.Message).ToArray());

        read.Messages.Should().ContainSingle();
        read.Faults.Single().Should().Be(new CaptureFault(0, 0, "pcapng-block-invalid",
            $"At byte 96 begins a block that claims {length} bytes, which no block has. Nothing from there on was read; what is before it was."));
    }

    [Fact]
    public void LengthsThatDiffer_EndTheReading()
    {
        Recording read = Recording.Of(new PcapngFile().Section().Interface().Packet(PcapngFile.Message)
            .Block(0x77, new byte[4], trailing: 20).Packet(PcapngFile.Message).ToArray());

        read.Messages.Should().ContainSingle();
        read.FaultCodes.Should().Equal("pcapng-block-invalid");
    }

    [Fact]
    public void BlockOfGigabytes_IsPassedOverWithoutBeingHeld()
    {
        byte[] start = new PcapngFile().Section().Interface().Packet(PcapngFile.Message).ToArray();
        byte[] block = new byte[1 << 20];
        Recording read = new();
        CaptureReader reader = new(read);
        reader.Write(start);
        byte[] claim = new byte[12];
        BinaryPrimitives.WriteUInt32LittleEndian(claim, 6);
        BinaryPrimitives.WriteUInt32LittleEndian(claim.AsSpan(4), 0x80000000);
        reader.Write(claim);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (long written = 12; written < 0x80000000; written += block.Length)
        {
            reader.Write(block.AsSpan(0, (int)Math.Min(block.Length, 0x80000000 - written)));
        }

        reader.Write(new PcapngFile().Packet(PcapngFile.Message).ToArray());
        reader.Complete();

        (GC.GetAllocatedBytesForCurrentThread() - before).Should().BeLessThan(1 << 16);
        read.FaultCodes.Should().Equal("pcapng-block-too-long");
        read.Messages.Should().HaveCount(2);
    }

    [Fact]
    public void LengthThatIsOnlyClaimed_TakesNoMemory()
    {
        byte[] input = [.. new PcapngFile().Section().ToArray(), 6, 0, 0, 0, 0, 0, 8, 0];
        Recording.Of(input);
        long before = GC.GetAllocatedBytesForCurrentThread();

        Recording.Of(input).FaultCodes.Should().Equal("pcapng-cut");

        (GC.GetAllocatedBytesForCurrentThread() - before).Should().BeLessThan(64 << 10);
    }

    [Theory]
    [InlineData(9, 9, "pcapng-block-invalid")]
    [InlineData(7, 8, "record-cut")]
    [InlineData(7, 7, "record-invalid")]
    [InlineData(3, 3, "record-invalid")]
    [InlineData(0, 0, "record-invalid")]
    [InlineData(0x7FFFFFFF, 0x7FFFFFFF, "pcapng-block-invalid")]
    [InlineData(-1, -1, "pcapng-block-invalid")]
    public void PacketThatClaimsAnotherLength_IsLeftOut(int captured, int original, string code)
    {
        Recording read = Recording.Of(new PcapngFile().Section().Interface()
            .Packet(PcapngFile.Message, 1, captured: captured, original: original).Packet(PcapngFile.Message, 2).ToArray());

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((1, code));
        read.Messages.Single().Line.Should().Be(2);
    }

    [Theory]
    [InlineData("0201000002008100", "record-version")]
    [InlineData("0109000002008100", "record-unknown")]
    [InlineData("0101050002008100", "record-invalid")]
    [InlineData("0101004002008100", "record-invalid")]
    [InlineData("0101000001008100", "record-invalid")]
    [InlineData("0101000003008100", "record-invalid")]
    [InlineData("01010000020081000000", "record-invalid")]
    [InlineData("0101000802008100", "record-invalid")]
    [InlineData("01010080020081007B", "member-invalid")]
    [InlineData("01010080020081007B0A7D", "member-invalid")]
    [InlineData("0101008002008100312E32", "member-invalid")]
    [InlineData("01020200", "record-invalid")]
    [InlineData("0103000100000000", "record-invalid")]
    [InlineData("01030001414240000F00000000", "record-invalid")]
    [InlineData("010300014142400F00000000", "record-invalid")]
    [InlineData("010400000000", "record-invalid")]
    [InlineData("01040000020072", "record-invalid")]
    [InlineData("0104000002007270FF", "record-invalid")]
    [InlineData("0104000001007A", "event-unknown")]
    [InlineData("010400000200C328", "record-invalid")]
    public void RecordThatIsNoneOfItsKind_IsReportedWithItsNumber(string payload, string code)
    {
        Recording read = Recording.Of(new PcapngFile().Section().Interface()
            .Packet(PcapngFile.Message).Packet(Convert.FromHexString(payload)).ToArray());

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((2, code));
        read.Faults.Single().Detail.Should().Match(detail => code == "event-unknown" || detail.Contains("byte 96", StringComparison.Ordinal));
        (read.Messages.Count + read.Events.Count).Should().Be(code is "member-invalid" or "event-unknown" ? 2 : 1);
    }

    [Theory]
    [InlineData("{\"capture\":1")]
    [InlineData("{\"capture\":1,\n\"port\":\"C1\"}")]
    [InlineData("{\"capture\":2}")]
    public void HeaderThatIsNone_IsReportedAndTheRecordsAreRead(string comment)
    {
        PcapngFile file = new();
        Recording read = Recording.Of(file.Section().Interface(options: [file.Option(1, comment)]).Packet(PcapngFile.Message).ToArray());

        read.Header.Port.Should().Be("C1");
        read.Messages.Should().ContainSingle();
        read.FaultCodes.Should().ContainSingle().Which.Should().BeOneOf("pcapng-option-invalid", "header-version", "json-invalid");
    }

    [Fact]
    public void PacketOfAnInterfaceThatIsNotThere_IsLeftOut() => Recording.Of(
        new PcapngFile().Section().Interface().Packet(PcapngFile.Message, port: 9).ToArray())
        .Faults.Select(f => (f.Line, f.Code)).Should().Equal((1, "pcapng-block-invalid"));

    [Fact]
    public void InterfacesWithoutEnd_AreNotKept()
    {
        PcapngFile file = new();
        file.Section().Interface();
        for (int index = 0; index < 3000; index++)
        {
            file.Interface(new string('x', 500));
        }

        Recording read = Recording.Of(file.Packet(PcapngFile.Message).ToArray());

        read.FaultCodes.Should().Equal("pcapng-block-invalid");
        read.Messages.Should().ContainSingle();
    }

    [Fact]
    public void SectionOfAnotherVersion_IsNotRead() => Recording.Of(
        new PcapngFile().Section(major: 2).Interface().Packet(PcapngFile.Message).ToArray())
        .FaultCodes.Should().Equal("pcapng-block-invalid");

    [Fact]
    public void EndsOfLinesThatLookLikeASection_AreBlanks()
    {
        Recording read = Recording.Of([(byte)'\n', (byte)'\r', (byte)'\r', (byte)'\n', .. "{\"capture\":1}\n{\"t\":1,\"rp\":\"3A\"}"u8]);

        read.Format.Should().Be("capture");
        read.Events.Single().Line.Should().Be(4);
    }

    [Fact]
    public void RandomBytesBehindASection_NeverThrow() => Gen.Byte.Array[0, 300].Sample(
        bytes => Recording.Of([.. new PcapngFile().Section().Interface().ToArray(), .. bytes]).Headers.Should().ContainSingle(),
        seed: "0000000000001",
        iter: 3000);

    [Fact]
    public void RandomPayloads_NeverThrow() => Gen.Byte.Array[0, 60].Select(Gen.Int[1, 4]).Sample(
        (bytes, kind) => Recording.Of(new PcapngFile().Section().Interface().Packet([1, (byte)kind, .. bytes]).ToArray()),
        seed: "0000000000001",
        iter: 5000);

    [Fact]
    public void MillionMessages_AllocateNextToNothing()
    {
        PcapngFile part = new();
        for (int message = 0; message < 1000; message++)
        {
            part.Packet(PcapngFile.Message);
        }

        byte[] blocks = part.ToArray();
        CountingSink counter = new();
        CaptureReader reader = new(counter);
        reader.Write(new PcapngFile().Section().Interface().ToArray());
        reader.Write(blocks);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int round = 1; round < 1000; round++)
        {
            // Pieces end within blocks.
            reader.Write(blocks.AsSpan(0, 12_345));
            reader.Write(blocks.AsSpan(12_345));
        }

        reader.Complete();

        (GC.GetAllocatedBytesForCurrentThread() - before).Should().BeLessThan(64 << 10);
        counter.Messages.Should().Be(1_000_000);
        counter.Faults.Should().Be(0);
    }
}
