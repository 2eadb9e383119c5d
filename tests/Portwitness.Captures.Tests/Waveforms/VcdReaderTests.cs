using System.Text;
using Portwitness.Captures.Waveforms;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests.Waveforms;

/// <summary>Source: IEEE 1364, clause 18.2 (four-state VCD); the frames are those of shared/vectors.</summary>
public class VcdReaderTests
{
    private static string Plain => WaveformFile.Vcd().Text();

    // The edges of the known GoodCRC frame, worked out from the bits that shared/vectors/line-code.json lists.
    private static IEnumerable<(long Half, bool High)> KnownFrame()
    {
        const string bits = "00011000110001110001100100100101111011111101010111111011110110010010101010101110" + "10110";
        bool high = true;
        for (int i = 0; i < 64 + bits.Length; i++)
        {
            yield return (2 * i, high = !high);
            if ((i < 64 ? i % 2 == 1 : bits[i - 64] == '1'))
            {
                yield return ((2 * i) + 1, high = !high);
            }
        }

        yield return (2 * (64 + bits.Length), !high);
    }

    private static string Dump(string declarations, Func<bool, string> change, string timescale = "10 ns", long tickNs = 10, string start = "#0 1!\n")
    {
        StringBuilder text = new($"$date today $end\n$timescale {timescale} $end\n{declarations}\n$enddefinitions $end\n{start}");
        foreach ((long half, bool high) in KnownFrame())
        {
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"#{(1_000_000 + (half * 5000 / 3)) / tickNs}\n{change(high)}\n");
        }

        return text.Append(System.Globalization.CultureInfo.InvariantCulture, $"#{2_000_000 / tickNs}\n").ToString();
    }

    private static string Wire(bool high) => high ? "1!" : "0!";

    [Fact]
    public void WrittenDump_IsRead()
    {
        Recording read = Recording.Of(Plain);
        read.ShouldHoldTheConversation();
        (read.Format, read.Header.Format, read.Header.TimeOf).Should().Be(("vcd", "vcd", MessageMoment.Start));
        read.Qualities.Should().OnlyContain(quality => Math.Abs(quality.BitsPerSecond!.Value - 300_000) <= quality.RateUncertainty && quality.PreambleBits == 64 && quality.SetSymbols == 4);
    }

    [Theory]
    [InlineData("1 ns", 1)]
    [InlineData("1ns", 1)]
    [InlineData("10 ns", 10)]
    [InlineData("100\n ns", 100)]
    public void KnownFrame_IsRead_InEveryTimescale(string timescale, long tickNs)
    {
        Recording read = Recording.Of(Dump("$var wire 1 ! cc1 $end", Wire, timescale, tickNs));
        KeptMessage message = read.Messages.Should().ContainSingle().Subject;
        (message.Hex, message.CrcOk, message.Crc, message.TimeUs).Should().Be(("8100", true, 0x6341BBF5, 1000));
        read.Faults.Should().BeEmpty();
        read.Qualities[0].RateUncertainty.Should().BeInRange(1, 300, "a step of 100 ns is 0.1 % of 32 bits");
    }

    [Theory]
    [InlineData("s", 1_000_000_000_000)]
    [InlineData("us", 1_000_000)]
    [InlineData("ps", 1)]
    public void OtherUnits_AreRead(string unit, long tickPs)
    {
        long second = 1_000_000_000_000 / tickPs;
        string text = $"$timescale 1{unit} $end $var wire 1 ! cc $end $enddefinitions $end #0 0! #{second} 1! #{2 * second}";
        Recording.Of(text).FaultCodes.Should().Equal("waveform-without-frames");
    }

    [Fact]
    public void Femtoseconds_AreRead()
    {
        string text = Dump("$var wire 1 ! cc1 $end", Wire, "1 ns", 1)
            .Replace("1 ns", "100 fs", StringComparison.Ordinal);
        text = System.Text.RegularExpressions.Regex.Replace(text, "#([0-9]+)", "#${1}0000");
        Recording.Of(text).Messages.Should().ContainSingle().Which.TimeUs.Should().Be(1000);
    }

    [Theory]
    [InlineData("$var wire 1 ! cc1 $end")]
    [InlineData("$var reg 1 ! cc1 [0] $end $var wire 8 % bus [7:0] $end")]
    [InlineData("$scope module top $end $var wire 1 ! CC $end $upscope $end $var wire 1 # reset $end")]
    [InlineData("$var wire 1 ! \\cc-1. $end $comment cc2 is not connected $end $var wire 1 \" success $end")]
    [InlineData("$var wire 1 ! line $end")]
    [InlineData("$scope module a $end $var wire 1 ! cc1 $end $scope module b $end $var wire 1 ! cc1 $end $upscope $end $upscope $end")]
    public void TheOnlySignalThatCanBeMeant_IsRead(string declarations) =>
        Recording.Of(Dump(declarations, Wire)).Messages.Should().ContainSingle().Which.Hex.Should().Be("8100");

    [Theory]
    [InlineData("cc1")]
    [InlineData("top.cc1")]
    [InlineData("bench.top.cc1")]
    public void NamedSignal_IsRead(string signal)
    {
        string declarations = "$scope module bench $end $scope module top $end $var wire 1 ! cc1 $end $var wire 1 \" cc2 $end $upscope $end $upscope $end";
        byte[] dump = Encoding.UTF8.GetBytes(Dump(declarations, Wire));
        Recording.Of(dump, options: WaveformFile.Signal(signal)).Messages.Should().ContainSingle();
        Recording.Of(dump, options: WaveformFile.Signal("cc2")).Messages.Should().BeEmpty();
    }

    [Theory]
    [InlineData("$var wire 1 ! cc1 $end $var wire 1 # cc2 $end", "cc1")]
    [InlineData("$var wire 1 # dp $end $var wire 1 ! a $end", "a")]
    public void OfSeveralSignals_TheOneWithFramesIsRead(string declarations, string name)
    {
        Recording read = Recording.Of(Dump(declarations, Wire));

        read.Messages.Should().ContainSingle().Which.Hex.Should().Be("8100");
        read.Headers.Should().ContainSingle();
        read.Faults.Should().ContainSingle().Which.Detail.Should().StartWith($"Of several signals \"{name}\" has frames");
        FaultCodes.IsNote(read.FaultCodes.Single()).Should().BeTrue();
    }

    [Theory]
    [InlineData("$var wire 1 # cc1 $end $var wire 1 % cc2 $end")]
    [InlineData("$var wire 1 # a $end $var wire 1 % b $end")]
    public void SeveralSignalsWithoutFrames_AreAFaultWithTheNames(string declarations) =>
        Recording.Of(Dump(declarations, Wire)).Faults.Should().ContainSingle().Which.Code.Should().Be("signal-unsettled");

    // The plug is turned in the middle: the conversation goes on at the other line of the port.
    [Fact]
    public void TwoCcLinesOfAPort_AreOneCapture()
    {
        string[] lines = WaveformFile.Vcd().Text().Split('\n');
        int body = Array.FindIndex(lines, static line => line.StartsWith('#'));
        string variable = lines.First(static line => line.StartsWith("$var", StringComparison.Ordinal));
        string code = variable.Split(' ')[3];
        long end = long.Parse(lines.Last(static line => line.StartsWith('#'))[1..], System.Globalization.CultureInfo.InvariantCulture) + 1_000_000_000;
        IEnumerable<string> turned = lines.Skip(body).Select(line => line.StartsWith('#')
            ? $"#{long.Parse(line[1..], System.Globalization.CultureInfo.InvariantCulture) + end}"
            : line.EndsWith(code, StringComparison.Ordinal) ? line[..^code.Length] + "~2" : line);
        string text = string.Join('\n', lines.Take(body).Select(line => line == variable
            ? $"$var wire 1 {code} cc1 $end\n$var wire 1 ~2 cc2 $end" : line).Concat(lines.Skip(body)).Concat(turned));

        Recording one = Recording.Of(WaveformFile.Vcd());
        Recording read = Recording.Of(text);

        read.Messages.Select(static message => message.Hex).Should().Equal([.. one.Messages.Concat(one.Messages).Select(static message => message.Hex)]);
        read.Faults.Select(static fault => fault.Code).Should().Equal("signal-chosen", "signal-chosen");
        read.Faults[1].Detail.Should().Contain(".cc2\": the plug was turned");
    }

    [Theory]
    [InlineData("$var wire 1 ! a $end", "cc1", "There is no signal 'cc1'")]
    [InlineData("$var wire 8 ! cc1 [7:0] $end", null, "Known: none")]
    [InlineData("$scope module a $end $var wire 1 ! c $end $upscope $end $scope module b $end $var wire 1 # c $end $upscope $end", "c", "a.c, b.c")]
    public void SignalThatCannotBeTold_IsAFaultWithTheNames(string declarations, string? signal, string says)
    {
        Recording read = Recording.Of(
            Encoding.UTF8.GetBytes(Dump(declarations, Wire)), options: new() { Waveform = new WaveformOptions { Signal = signal } });
        CaptureFault fault = read.Faults.Should().ContainSingle().Subject;
        fault.Code.Should().Be("signal-unsettled");
        fault.Detail.Should().Contain(says);
        read.Headers.Should().ContainSingle();
    }

    [Theory]
    [InlineData("b1 !", "b0 !")]
    [InlineData("B0001 !", "b0 !")]
    [InlineData("r1.125 !", "r0.0e+00 !")]
    [InlineData("R9.4E-1 !", "r1e-2 !")]
    public void OtherWritingsOfValues_AreRead(string high, string low)
    {
        string type = high[0] is 'r' or 'R' ? "real 64" : "wire 1";
        Recording.Of(Dump($"$var {type} ! cc1 $end", level => level ? high : low, start: $"#0 $dumpvars {high} $end\n"))
            .Messages.Should().ContainSingle().Which.CrcOk.Should().BeTrue();
    }

    // A released line is z: the preamble's first bit begins where it is driven again, whatever the level.
    [Theory]
    [InlineData("#0 $dumpvars z! $end\n")]
    [InlineData("#0 $dumpvars x! $end\n#10 1!\n")]
    [InlineData("#0 $dumpall 1! $end\n$comment of no $ matter $end\n")]
    [InlineData("$dumpvars 1! $end\n#0\n")]
    public void UndefinedAndReleasedLevels_AreNoEdges(string start)
    {
        Recording read = Recording.Of(Dump("$var wire 1 ! cc1 $end", Wire, start: start));
        read.Messages.Should().ContainSingle();
        read.Qualities[0].PreambleBits.Should().Be(64);
    }

    [Fact]
    public void DumpSwitchedOff_IsAGapInTheRecording()
    {
        string dump = Plain;
        int middle = dump.IndexOf("\n#3000000", StringComparison.Ordinal);
        string[] lines = dump[middle..].Split('\n');
        string off = string.Join('\n', lines[..80]) + "\n$dumpoff\nx!\n$end\n" + "#3400000\n$dumpon\n1!\n$end\n"
            + string.Join('\n', lines.SkipWhile(line => !line.StartsWith("#38", StringComparison.Ordinal)));
        Recording read = Recording.Of(dump[..middle] + off);
        read.Messages.Should().HaveCount(2);
        BrokenFrameRecord broken = read.Broken.Should().ContainSingle().Subject;
        (broken.Why, broken.TimeUs).Should().Be((FrameBreak.RecordingStopped, 3000));
        read.Signals.Should().ContainSingle();
        read.Faults.Should().BeEmpty();
    }

    [Fact]
    public void FaultyDump_IsReadAroundItsFaults()
    {
        string dump = Plain.Replace("#0\n", "#0\n?!\n#abc\n", StringComparison.Ordinal).Replace("\n#23", "\n#5\n#23", StringComparison.Ordinal);
        Recording read = Recording.Of(dump);
        read.Messages.Should().HaveCount(3);
        read.Faults.Take(2).Select(fault => (fault.Line, fault.Column, fault.Code)).Should().Equal((8, 1, "vcd-invalid"), (9, 1, "time-invalid"));
        read.Faults.Skip(2).Should().OnlyContain(fault => fault.Code == "time-backwards");
    }

    [Theory]
    [InlineData("$var wire 1 ! cc1 $end $enddefinitions $end #0 1!", "vcd-invalid")]
    [InlineData("$timescale 3 ns $end $var wire 1 ! cc1 $end $enddefinitions $end #0 1!", "vcd-invalid")]
    [InlineData("$timescale 1 ns $end $var wire 1 ! cc1 $end", "vcd-invalid")]
    [InlineData("$timescale 1 ns $end $var wire 1 ! cc1 $end $enddefinitions $end", "waveform-without-frames")]
    public void DumpWithoutWhatIsNeeded_IsAFault(string dump, string code)
    {
        Recording read = Recording.Of(dump);
        read.FaultCodes.Should().Equal(code);
        read.Headers.Should().ContainSingle();
    }

    [Fact]
    public void SendersRateAndJitter_AreRead_TheRecordersAreNot()
    {
        Recording read = Recording.Of(WaveformFile.Vcd(new LineShape { BitsPerSecond = 262_000, JitterNs = 60, Seed = 5 }));
        read.Messages.Should().HaveCount(3);
        read.Qualities.Should().OnlyContain(quality => quality.BitsPerSecond > 261_000 && quality.BitsPerSecond < 263_000
            && quality.RateUncertainty - OfJitter(quality) >= 0 && quality.RateUncertainty - OfJitter(quality) < 20
            && quality.JitterNs > 50 && quality.JitterNs < 160);

        // Steps of 10 ns, from an exact sender.
        Recording exact = Recording.Of(Dump("$var wire 1 ! cc1 $end", Wire));
        exact.Qualities.Single().JitterNs.Should().Be(0);
    }

    // Both ends of 32 bits may be off by so much: 2 · rate² · jitter / 32, in bits a second.
    private static long OfJitter(FrameQuality quality) =>
        2L * quality.BitsPerSecond!.Value * quality.BitsPerSecond.Value * quality.JitterNs!.Value / 32_000_000_000;
}
