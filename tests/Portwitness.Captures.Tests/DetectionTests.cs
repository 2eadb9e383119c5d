using System.Text;

namespace Portwitness.Captures.Tests;

public class DetectionTests
{
    [Theory]
    [InlineData("{\"capture\":1}", "capture")]
    [InlineData("\n\n  {\"t\":1}", "capture")]
    [InlineData("oops\n{\"capture\":1}", "capture")]
    [InlineData("[    1.886496] PD RX, header: 0x5161 [1]", "kernel-log")]
    [InlineData("# cat /sys/kernel/debug/usb/tcpm-x/log\n[ 1035.827371] VBUS off", "kernel-log")]
    [InlineData("> [   95.711984] VBUS on", "kernel-log")]
    [InlineData("PD RX, header: 0x5161 [1]", "kernel-log")]
    [InlineData("pd1/source-capabilities/1:fixed_supply/voltage:5000mV", "sysfs")]
    [InlineData("$ grep -r . pd1/\npd1/power/control:auto\npd1/sink_capabilities/1:battery/maximum_voltage:5000mV", "sysfs")]
    [InlineData("/sys/class/usb_power_delivery/pd1/revision:3.0", "sysfs")]
    [InlineData("0x0801912C", "words")]
    [InlineData("# of /sys/class/usb_power_delivery/pd1\n0x0801912C", "words")]
    [InlineData("0801912C 0002D12C", "words")]
    [InlineData("# objects\n0x0801912C", "words")]
    [InlineData("0x0801912", "words")]
    [InlineData("time,sop,hex", "table")]
    [InlineData("# words of 0x0801912C\nTime (ms);Data", "table")]
    public void Content_DecidesTheFormat(string text, string format) => Recording.Of(text).Format.Should().Be(format);

    [Fact]
    public void BlanksInFront_DoNotCountAgainstTheBound()
    {
        Recording read = Recording.Of(new string('\n', 10_000) + "{\"capture\":1}\n{\"t\":1,\"rp\":\"3A\"}");

        read.Format.Should().Be("capture");
        read.Events.Single().Line.Should().Be(10_002);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" \t\r\n\n")]
    [InlineData("\uFEFF")]
    public void NothingInIt_IsEmpty(string text)
    {
        Recording read = Recording.Of(text);

        read.Format.Should().BeNull();
        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((0, 0, "input-empty"));
        read.Headers.Should().BeEmpty();
    }

    [Fact]
    public void SomethingElse_NamesTheFirstBytesAndWhatWasExpected()
    {
        Recording read = Recording.Of([(byte)'\n', 0x89, (byte)'P', (byte)'N', (byte)'G', 0x1B, (byte)'[', (byte)'2', (byte)'J']);

        read.Format.Should().BeNull();
        read.Faults.Single().Should().Be(new CaptureFault(2, 1, "format-unknown",
            "The input begins with '\\x89PNG\\x1B[2J', which no known format does. Expected a capture (JSON Lines, first line "
            + "{\"capture\":1,...}), a kernel port log (\"[    1.886496] PD RX, header: ...\"), a kernel's "
            + "power-delivery directory (pd1/source-capabilities/1:fixed_supply/voltage:5000mV), 32-bit words (0x0801912C ...), "
            + "a text that quotes objects (obj0=0x0801912C, [0] 0801912C, PDO 0: type 0, 5000 mV, 3000 mA []), typed offers (5V 3A, 9V 3A), a pcapng file, "
            + "the CC line as VCD or voltages, "
            + "or a table with headings (time,sop,hex). Of a table with other headings say with --columns which columns it has, "
            + "of bare samples of the CC line with --samples what they are."));
    }

    [Theory]
    [InlineData("1 2 3")]
    [InlineData("[1, 2, 3]")]
    [InlineData("time;voltage\n1;2")]
    [InlineData("x")]
    public void OtherText_IsUnknown(string text) => Recording.Of(text).FaultCodes.Should().Equal("format-unknown");

    [Fact]
    public void Utf16_IsNamed()
    {
        foreach (Encoding encoding in new[] { Encoding.Unicode, Encoding.BigEndianUnicode })
        {
            byte[] text = encoding.GetBytes("{\"capture\":1}\n{\"t\":1,\"rp\":\"3A\"}\n");

            Recording.Of(text).FaultCodes.Should().Equal("text-not-utf8");
            Recording.Of([.. encoding.GetPreamble(), .. text]).FaultCodes.Should().Equal("text-not-utf8");
        }
    }
}
