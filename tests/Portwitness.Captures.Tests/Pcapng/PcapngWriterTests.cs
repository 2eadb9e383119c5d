using System.Text;
using CsCheck;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Pcapng;

namespace Portwitness.Captures.Tests.Pcapng;

public class PcapngWriterTests
{
    private static readonly Gen<string> Value = Gen.OneOf(
        Gen.Const("null"), Gen.Const("{\"a\":[1,{\"b\":\"\u00e9'<>\"}]}"), Gen.Int.Select(i => i.ToString()), Gen.Const("\"x\""));

    private static readonly Gen<string> Extra = Gen.OneOf(Gen.Const(""), Value.Select(value => $",\"mine\":{value}"));

    private static readonly Gen<string> Record = Gen.Select(
        Gen.Int[0, 4], Gen.Byte.Array[2, 60], Gen.UInt, Gen.Int[0, 6], Gen.Bool, Extra).Select((kind, bytes, number, choice, flag, extra) => kind switch
        {
            0 => $"\"sop\":\"{new[] { "SOP", "SOP'", "SOP''", "SOP'_Debug", "SOP''_Debug" }[number % 5]}\",\"hex\":\"{System.Convert.ToHexString(bytes)}\""
                + (choice > 3 ? $",\"known\":\"{System.Convert.ToHexString(bytes.Reverse().ToArray())}\"" : "")
                + (choice is 1 or 2 or 5 ? $",\"crc\":\"{number:X8}\"" : "")
                + (choice is 2 or 3 or 6 ? $",\"crc_ok\":{(flag ? "true" : "false")}" : ""),
            1 => flag ? "\"signal\":\"hard-reset\"" : "\"signal\":\"cable-reset\"",
            2 => choice < 2 ? $"\"vbus_mv\":{number % 48000}" : choice < 4 ? $"\"ibus_ma\":{-(number % 5000)}"
                : $"\"vbus_mv\":{number % 48000},\"ibus_ma\":{number % 5000}",
            3 => $"\"event\":\"{(flag ? "attach" : "line")}\"" + (choice > 3 ? ",\"port\":\"C\u00fc2\"" : "") + (choice % 2 == 0 && flag ? ",\"value\":\"\"" : ""),
            _ => (choice > 3 ? "\"port\":\"A1\"," : "") + (flag ? "\"rp\":\"3A\"" : "\"line\":\"bc1.2-dcp\""),
        } + extra);

    private static readonly Gen<string> Header = Gen.OneOf(new[]
    {
        "{\"capture\":1}",
        "{\"capture\":1,\"port\":\"C\u00e9'<1>\",\"mine\":[1,{\"a\":null}]}",
        "{\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\",\"C2\"],\"attach_order\":[\"C2\",\"C1\"],\"started\":\"2026-03-02T09:14:07.1234567+02:00\","
            + "\"product\":\"P\",\"sample\":\"3\",\"cable\":{\"kind\":\"captive\",\"current_a\":5,\"epr\":true},\"edition\":\"R3.1\","
            + "\"converted_from\":\"kernel-log\",\"time_of\":\"end\",\"resolution_us\":7}",
        "{\"capture\":1,\"port\":\"" + new string('x', 60_000) + "\"}",
        "{\"capture\":1,\"started\":\"1969-07-20T20:17:40.0000001Z\"}",
        "{\"capture\":1,\"mine\":\"" + new string('x', PcapngLimits - 23) + "\"}",
    }.Select(Gen.Const).ToArray());

    private const int PcapngLimits = 65_532;

    [Fact]
    public void AnyCapture_ComesBackToTheByte() => Gen.Select(Header, Gen.Select(Gen.Long[0, 9_007_199_254_740_991], Record).Array[0, 12]).Sample(
        (header, records) =>
        {
            string text = string.Concat(records.OrderBy(record => record.Item1)
                .Select(record => $"{{\"t\":{record.Item1},{record.Item2}}}\n").Prepend(header + "\n"));
            byte[] packed = Pcapng(Encoding.UTF8.GetBytes(text));

            Encoding.UTF8.GetString(JsonLines(packed)).Should().Be(text);
            Pcapng(packed).Should().Equal(packed);
        },
        seed: "0000000000001",
        iter: 1000);

    [Theory]
    [InlineData("kernel-log-02.log")]
    [InlineData("kernel-log-05.log")]
    [InlineData("kernel-log-08.log")]
    [InlineData("sysfs-pd1.txt")]
    public void OtherFormats_KeepWhatIsUnknownAndWhereTheyComeFrom(string name)
    {
        byte[] input = File.ReadAllBytes(Recording.PathOf(name));

        JsonLines(Pcapng(input)).Should().Equal(JsonLines(input));
    }

    [Fact]
    public void BenchCapture_IsLaidOutAsThePageSays()
    {
        byte[] written = Pcapng(Encoding.UTF8.GetBytes(
            "{\"capture\":1,\"port\":\"C1\"}\n{\"t\":4294967298,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc\":\"F5BB4163\",\"crc_ok\":true}\n"));

        PcapngFile expected = new();
        expected.Block(0x0A0D0D0A,
            [
                .. expected.U32(0x1A2B3C4D), 1, 0, 0, 0, .. expected.U64(ulong.MaxValue), .. expected.Option(4, "Portwitness"),
                .. expected.Option(0, ""),
            ])
            .Block(1,
            [
                147, 0, 0, 0, 0, 0, 0, 0, .. expected.Option(1, "{\"capture\":1,\"port\":\"C1\"}"), .. expected.Option(2, "C1"),
                .. expected.Option(9, [6]), .. expected.Option(0, ""),
            ])
            .Packet([1, 1, 0, 0x07, 2, 0, 0x81, 0x00, 0xF5, 0xBB, 0x41, 0x63], 4294967298);
        written.Should().Equal(expected.ToArray());
    }

    [Fact]
    public void RecordBeforeTheHeader_IsABadCall()
    {
        PcapngWriter writer = new(Stream.Null);
        writer.Invoking(w => w.OnSignal(new SignalRecord(0, 0, SignalKind.HardReset))).Should().Throw<InvalidOperationException>();
        writer.OnHeader(new CaptureHeader { Format = "capture" });
        writer.Invoking(w => w.OnHeader(new CaptureHeader { Format = "capture" })).Should().Throw<InvalidOperationException>();
        writer.Invoking(w => w.OnMessage(default)).Should().Throw<ArgumentException>();
    }

    internal static byte[] Pcapng(byte[] input) => Convert(input, "pcapng");

    private static byte[] JsonLines(byte[] input) => Convert(input, "jsonl");

    private static byte[] Convert(byte[] input, string format)
    {
        using MemoryStream output = new();
        using (ICaptureWriter writer = CaptureFormats.Find(format).Format!.Open(output, null))
        {
            CaptureReader reader = new(writer);
            reader.Write(input);
            reader.Complete();
        }

        return output.ToArray();
    }
}
