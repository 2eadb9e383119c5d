using System.Text;
using CsCheck;
using Portwitness.Captures.Formats;

namespace Portwitness.Captures.Tests;

/// <summary>Every input is hostile: no piece size, byte or length may change results, throw, or take memory.</summary>
public class RobustnessTests
{
    public static TheoryData<string> Inputs =>
    [
        "bench.capture.jsonl", "kernel-log-02.log", "kernel-log-05.log", "kernel-log-08.log", "sysfs-pd1.txt", "words", "faulty", "utf16", "blank",
        "noise", "pcapng", "pcapng-big", "gzip",
    ];

    [Theory]
    [MemberData(nameof(Inputs))]
    public void InputCutAnywhere_GivesTheSame(string name)
    {
        byte[] input = Input(name);
        List<string> expected = Recording.Of(input).Calls;

        for (int at = 0; at <= input.Length; at++)
        {
            Recording.OfSplit(input, at).Calls.Should().Equal(expected, "cut at {0}", at);
        }

        foreach (int piece in new[] { 1, 2, 3, 7, 64 })
        {
            Recording.Of(input, piece).Calls.Should().Equal(expected, "pieces of {0}", piece);
        }
    }

    [Theory]
    [InlineData(65535)]
    [InlineData(65536)]
    [InlineData(65537)]
    [InlineData(65538)]
    public void LineAtTheLimit_IsTheSameInOnePieceAndInMany(int length)
    {
        foreach (string end in new[] { "", "\n", "\r\n" })
        {
            byte[] input = Encoding.UTF8.GetBytes(
                "{\"capture\":1}\n{\"t\":1,\"rp\":\"3A\",\"x\":\"" + new string('x', length - 24) + "\"}" + end);
            List<string> expected = Recording.Of(input).Calls;

            Recording.Of(input, 1000).Calls.Should().Equal(expected);
            Recording.OfSplit(input, input.Length - 1).Calls.Should().Equal(expected);
            Recording.Of(input).Events.Count.Should().Be(length <= 65536 ? 1 : 0);
        }
    }

    [Fact]
    public void RandomBytes_NeverThrow() =>
        Gen.Byte.Array[0, 300].Sample(bytes => Recording.Of(bytes), seed: "0000000000001", iter: 3000);

    [Theory]
    [MemberData(nameof(Inputs))]
    public void GoodInputWithBytesChanged_NeverThrowsAndGivesOneHeader(string name)
    {
        byte[] good = Input(name);
        Gen.Select(Gen.Int[0, good.Length - 1], Gen.Byte).Array[1, 8].Sample(
            changes =>
            {
                byte[] changed = [.. good];
                foreach ((int at, byte value) in changes)
                {
                    changed[at] = value;
                }

                Recording read = Recording.Of(changed);
                read.Headers.Should().HaveCount(read.Format is null ? 0 : 1);
                Times(read).Should().BeInAscendingOrder();
            },
            seed: "0000000000001",
            iter: 300);
    }

    [Theory]
    [InlineData("{\"capture\":1}\n", "x")]
    [InlineData("{\"capture\":1}\n{\"t\":1,\"hex\":\"", "4")]
    [InlineData("[    1.000000] VBUS on\n", "[")]
    [InlineData("0x0801912C\n", "0801912C ")]
    [InlineData("", " ")]
    public void LineOfAGigabyte_IsReportedOnceAndNotHeld(string start, string filling)
    {
        byte[] block = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(filling, (1 << 16) / filling.Length)));
        Recording read = new();
        CaptureReader reader = new(read);
        reader.Write(Encoding.UTF8.GetBytes(start));
        long before = GC.GetAllocatedBytesForCurrentThread();

        for (long written = 0; written < 1L << 30; written += block.Length)
        {
            reader.Write(block);
        }

        reader.Write("\n"u8);
        reader.Complete();

        (GC.GetAllocatedBytesForCurrentThread() - before).Should().BeLessThan(1 << 20);
        read.Faults.Where(f => f.Code == "line-too-long").Should().ContainSingle().Which.Column.Should().Be(65537);
    }

    [Fact]
    public void LineAfterATooLongOne_IsRead()
    {
        Recording read = Recording.Of("{\"capture\":1}\n" + new string('{', 100_000) + "\n{\"t\":1,\"rp\":\"3A\"}\n");

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((2, 65537, "line-too-long"));
        read.Events.Single().Line.Should().Be(3);
    }

    [Fact]
    public void MillionMessages_AllocateNextToNothing()
    {
        byte[] lines = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(
            "{\"t\":1042,\"sop\":\"SOP\",\"hex\":\"A1412C9101082CD102002CB1040045410600\",\"crc\":\"424F168A\",\"crc_ok\":true}\n", 1000)));
        CountingSink counter = new();
        CaptureReader reader = new(counter);
        reader.Write("{\"capture\":1}\n"u8);
        for (int round = 0; round < 10; round++)
        {
            reader.Write(lines);
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int round = 0; round < 990; round++)
        {
            reader.Write(lines);
        }

        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        reader.Complete();

        counter.Messages.Should().Be(1_000_000);
        counter.Faults.Should().Be(0);
        allocated.Should().BeLessThan(64 * 1024);
    }

    [Fact]
    public void WriteAfterTheEnd_IsABadCall()
    {
        CaptureReader reader = new(new Recording());
        reader.Complete();

        reader.Invoking(r => r.Write([1])).Should().Throw<InvalidOperationException>();
        reader.Invoking(r => r.Complete()).Should().Throw<InvalidOperationException>();
    }

    private static IEnumerable<long> Times(Recording read) => read.Messages.Select(m => m.TimeUs);

    private static byte[] Input(string name) => name switch
    {
        "words" => Encoding.UTF8.GetBytes("# bench\n0x0801912C, 0x0002D12C\n0004B12C xyz 0x00064145 # end\n"),
        "faulty" => Encoding.UTF8.GetBytes(
            "\uFEFF\r\n  {\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\"}\r\n{\"t\":1,\"x\":\"\u00e9\",\"rp\":\"3A\"\r\n\r\r\n{\"t\":0,\"event\":\"x\"}"),
        "utf16" => Encoding.Unicode.GetBytes("{\"capture\":1}\n"),
        "blank" => Encoding.UTF8.GetBytes("\uFEFF \r\n\t\n  "),
        "pcapng" => Pcapng.PcapngWriterTests.Pcapng(File.ReadAllBytes(Recording.PathOf("bench.capture.jsonl"))),
        "pcapng-big" => new Pcapng.PcapngFile(true).Section().Interface("C1").Interface("C2").Packet(Pcapng.PcapngFile.Message, 5)
            .Block(0x77, new byte[400]).Packet(Pcapng.PcapngFile.Message, 7, 1).Packet([1, 4, 0, 0, 2, 0, 0x72, 0x70], 9).ToArray(),
        "gzip" => ArchiveTests.Gzip(File.ReadAllBytes(Recording.PathOf("bench.capture.jsonl"))),
        "noise" => [0x0A, 0x0D, 0x0D, 0x0A, 1, 2, 3, 0xFF, 0xFE, 0, 0, 0x0A, 9],
        _ => File.ReadAllBytes(Recording.PathOf(name)),
    };
}
