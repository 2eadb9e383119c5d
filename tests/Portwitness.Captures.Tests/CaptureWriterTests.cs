using System.Text;
using CsCheck;
using Portwitness.Captures.Formats;
using Portwitness.Captures.JsonLines;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests;

public class CaptureWriterTests
{
    private static readonly Gen<string> Lines = Gen.Select(
        Gen.Int[0, 1000], Gen.Byte.Array[2, 40], Gen.UInt, Gen.Int[0, 4], Gen.Int[0, 6], Gen.Bool).Select(Line);

    [Theory]
    [InlineData("bench.capture.jsonl")]
    [InlineData("kernel-log-02.log")]
    [InlineData("kernel-log-05.log")]
    [InlineData("kernel-log-08.log")]
    public void ReadAndWritten_CarriesAllThatWasReadAndComesOutTheSameAgain(string name)
    {
        byte[] input = File.ReadAllBytes(Recording.PathOf(name));
        byte[] written = Convert(input);

        Convert(written).Should().Equal(written);
        Recording first = Recording.Of(input);
        Recording second = Recording.Of(written);
        second.Faults.Should().BeEmpty();
        second.Messages.Select(m => m with { Line = 0 }).Should().Equal(first.Messages.Select(m => m with { Line = 0 }));
        second.Events.Select(e => e with { Line = 0 }).Should().Equal(first.Events.Select(e => e with { Line = 0 }));
        second.Signals.Select(s => s with { Line = 0 }).Should().Equal(first.Signals.Select(s => s with { Line = 0 }));
        second.Measurements.Select(m => m with { Line = 0 }).Should().Equal(first.Measurements.Select(m => m with { Line = 0 }));
        second.Header.OriginName.Should().Be(first.Header.OriginName);
    }

    [Fact]
    public void HandWrittenBench_ComesOutAsItWasWritten()
    {
        byte[] input = File.ReadAllBytes(Recording.PathOf("bench.capture.jsonl"));

        Encoding.UTF8.GetString(Convert(input)).Should().Be(Encoding.UTF8.GetString(input));
    }

    [Fact]
    public void AnyRecords_ComeOutAsTheyWereWritten() => Lines.Array[0, 20].Sample(
        lines =>
        {
            string text = "{\"capture\":1,\"port\":\"C\u00e9'<1>\",\"mine\":[1,{\"a\":null}]}\n" + string.Concat(lines.Order(ByTime.Order));

            string written = Encoding.UTF8.GetString(Convert(Encoding.UTF8.GetBytes(text)));

            written.Should().Be(text);
        },
        seed: "0000000000001",
        iter: 500);

    [Fact]
    public void WordsConverted_KeepWhatIsUnknownAndWhereTheyComeFrom()
    {
        string written = Encoding.UTF8.GetString(Convert("0x0801912C"u8.ToArray()));

        written.Should().Be(
            "{\"capture\":1,\"converted_from\":\"words\"}\n"
            + "{\"t\":0,\"sop\":\"SOP\",\"hex\":\"01102C910108\",\"known\":\"1FF0FFFFFFFF\"}\n");
    }

    [Fact]
    public void OffsetOtherThanZero_IsKept() => Encoding.UTF8.GetString(
            Convert(Encoding.UTF8.GetBytes("{\"capture\":1,\"started\":\"2026-03-02T09:14:07.25+02:00\"}\n")))
        .Should().Be("{\"capture\":1,\"started\":\"2026-03-02T09:14:07.25+02:00\"}\n");

    [Fact]
    public void FaultsOfAConversion_AreTold()
    {
        List<CaptureFault> faults = [];
        using CaptureWriter writer = new(new MemoryStream(), faults.Add);
        CaptureReader reader = new(writer);
        reader.Write("{\"capture\":1}\n{\"t\":1}\n"u8);
        reader.Complete();

        faults.Should().ContainSingle().Which.Code.Should().Be("record-unknown");
    }

    [Fact]
    public void BadCalls_Throw()
    {
        using CaptureWriter writer = new(new MemoryStream());
        writer.Invoking(w => w.OnSignal(new SignalRecord(0, 1, SignalKind.HardReset))).Should().Throw<InvalidOperationException>();
        writer.OnHeader(new CaptureHeader { Format = "capture" });
        writer.Invoking(w => w.OnHeader(new CaptureHeader { Format = "capture" })).Should().Throw<InvalidOperationException>();
        writer.Invoking(w => w.OnMessage(Message(1, 0))).Should().Throw<ArgumentException>();
        writer.Invoking(w => w.OnMessage(Message(1025, 0))).Should().Throw<ArgumentException>();
        writer.Invoking(w => w.OnMessage(Message(4, 3))).Should().Throw<ArgumentException>();
    }

    private static MessageRecord Message(int bytes, int known) => new()
    {
        TimeUs = 0, Line = 1, Sop = SopKind.Sop, Bytes = new byte[bytes], Known = new byte[known],
    };

    private static byte[] Convert(byte[] input)
    {
        MemoryStream stream = new();
        using (CaptureWriter writer = new(stream))
        {
            CaptureReader reader = new(writer);
            reader.Write(input);
            reader.Complete();
        }

        return stream.ToArray();
    }

    private static string Line((int Time, byte[] Bytes, uint Crc, int Sop, int Kind, bool Flag) g)
    {
        string hex = System.Convert.ToHexString(g.Bytes);
        string sop = ((SopKind)g.Sop).ToText();
        string rest = g.Kind switch
        {
            0 => $"\"sop\":\"{sop}\",\"hex\":\"{hex}\"",
            1 => $"\"sop\":\"{sop}\",\"hex\":\"{hex}\",\"known\":\"{System.Convert.ToHexString([.. g.Bytes.Reverse()])}\",\"note\":\"\\u00e9\"",
            2 => $"\"sop\":\"{sop}\",\"hex\":\"{hex}\",\"crc\":\"{g.Crc:X8}\",\"crc_ok\":{(g.Flag ? "true" : "false")}",
            3 => g.Flag ? "\"signal\":\"hard-reset\"" : "\"signal\":\"cable-reset\",\"x\":[1, 2]",
            4 => $"\"vbus_mv\":{g.Bytes[0] * 100}" + (g.Flag ? ",\"ibus_ma\":-5" : ""),
            5 => g.Flag ? "\"event\":\"attach\",\"port\":\"C2\",\"value\":\"v\"" : "\"event\":\"rp\"",
            _ => g.Flag ? "\"port\":\"C2\",\"rp\":\"3A\"" : "\"line\":\"bc1.2-dcp\"",
        };
        return $"{{\"t\":{g.Time},{rest}}}\n";
    }

    private sealed class ByTime : IComparer<string>
    {
        public static readonly ByTime Order = new();

        public int Compare(string? x, string? y) => Time(x!).CompareTo(Time(y!));

        private static int Time(string line) =>
            int.Parse(line.AsSpan(5, line.IndexOf(',', StringComparison.Ordinal) - 5), System.Globalization.CultureInfo.InvariantCulture);
    }
}
