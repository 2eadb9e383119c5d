using System.Text;
using Portwitness.Captures.Archives;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Waveforms;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests.Waveforms;

/// <summary>
/// Levels and edges as R3.2v1.1, 5.8.2.1 has them: vSwing 1.05 to 1.2 V, tRise and tFall at least 300 ns; the idle line at
/// what Rp and Rd make of it, above the swing or within.
/// </summary>
public class SampleReaderTests
{
    public static TheoryData<SampleKind, long> Kinds => new()
    {
        { SampleKind.Bit, 25_000_000 }, { SampleKind.BitHighFirst, 25_000_000 }, { SampleKind.U8, 25_000_000 },
        { SampleKind.I16, 25_000_000 }, { SampleKind.F32, 25_000_000 }, { SampleKind.Bit, 4_000_000 }, { SampleKind.U8, 3_000_000 },
        { SampleKind.I16, 100_000_000 }, { SampleKind.U8, 33_333_333 },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void EveryKind_IsRead(SampleKind kind, long rate)
    {
        byte[] samples = WaveformFile.Samples(new SampleShape { Kind = kind, SampleRate = rate });
        Recording read = Recording.Of(samples, options: WaveformFile.Options(kind, rate));
        read.ShouldHoldTheConversation();
        read.Format.Should().Be("samples");
        read.Qualities.Should().OnlyContain(quality => Math.Abs(quality.BitsPerSecond!.Value - 300_000) <= quality.RateUncertainty);
    }

    [Theory]
    [InlineData(1680, 400, 60)]
    [InlineData(920, 600, 60)]
    [InlineData(410, 300, 60)]
    [InlineData(2000, 900, 30)]
    [InlineData(1680, 400, 0)]
    public void NoisySlowAndOffCentreLines_AreRead_WithoutLevels(int idle, int edge, int noise)
    {
        for (ulong seed = 0; seed < 8; seed++)
        {
            SampleShape samples = new()
            {
                Kind = SampleKind.I16, IdleMillivolts = idle, EdgeNs = edge, NoiseMillivolts = noise, LowMillivolts = 30, HighMillivolts = 1100,
            };
            byte[] written = WaveformFile.Samples(samples, new LineShape { JitterNs = 40, RiseLagNs = 60, Seed = seed });
            CaptureReadOptions options = WaveformFile.Options(SampleKind.I16, 25_000_000);
            Recording.Of(written, options: options).ShouldHoldTheConversation($"seed {seed}");
        }
    }

    [Fact]
    public void StatedLevels_AreUsed()
    {
        byte[] samples = WaveformFile.Samples(new SampleShape { Kind = SampleKind.I16 });
        Recording.Of(samples, options: WaveformFile.Options(SampleKind.I16, 25_000_000, (400, 700))).ShouldHoldTheConversation();
        Recording wrong = Recording.Of(samples, options: WaveformFile.Options(SampleKind.I16, 25_000_000, (-500, 3000)));
        wrong.FaultCodes.Should().Equal("waveform-without-frames");
        wrong.Faults[0].Detail.Should().Contain("0 times");
    }

    [Fact]
    public void Table_IsFoundFromItsContent_AndRead()
    {
        string table = WaveformFile.Samples(new SampleShape { Kind = SampleKind.Text, SampleRate = 10_000_000 }).Text();
        Recording read = Recording.Of(table);
        read.ShouldHoldTheConversation();
        read.Format.Should().Be("samples");
        Recording.Of(table.Replace(',', ';').Replace('.', ',')).ShouldHoldTheConversation("decimal commas");
        Recording.Of(table.Replace(',', '\t').Replace("\n", "\r\n")).ShouldHoldTheConversation("tabs");
        Recording.Of("Model,Tarnholt bench scope\nRecord,1\n" + table).ShouldHoldTheConversation("headings");
        Recording.Of(table[(table.IndexOf('\n') + 1)..]).ShouldHoldTheConversation("no heading");
    }

    [Fact]
    public void TableWithOtherUnitsAndColumns_IsRead()
    {
        string[] rows = WaveformFile.Samples(new SampleShape { Kind = SampleKind.Text, SampleRate = 10_000_000 }).Text().TrimEnd().Split('\n')[1..];
        StringBuilder text = new("Time [us],VBUS (V),CC1 (mV),CC2 (mV)\n");
        foreach (string row in rows)
        {
            string[] cells = row.Split(',');
            decimal microseconds = 1_000_000 * decimal.Parse(cells[0], System.Globalization.CultureInfo.InvariantCulture);
            decimal millivolts = 1000 * decimal.Parse(cells[1], System.Globalization.CultureInfo.InvariantCulture);
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"{microseconds - 500:0.000},5.01,{millivolts:0},0\n");
        }

        byte[] table = Encoding.UTF8.GetBytes(text.ToString());
        Recording.Of(table, options: WaveformFile.Signal("cc1")).ShouldHoldTheConversation("times count from the first row");
        Recording ambiguous = Recording.Of(table, options: WaveformFile.Signal("cc3"));
        ambiguous.FaultCodes.Should().Equal("signal-unsettled");
        ambiguous.Faults[0].Detail.Should().Contain("VBUS, CC1, CC2");
    }

    [Fact]
    public void SlowTable_IsNoRecordingOfTheLine()
    {
        Recording read = Recording.Of("time_s,v\n0,5.01\n0.1,5.02\n0.2,5.02\n0.3,5.02\n0.4,5.02\n0.5,5.02\n0.6,5.02\n0.7,5.0\n");
        read.Format.Should().NotBe("samples");
    }

    [Fact]
    public void UnreadableRow_IsAGap()
    {
        string[] rows = WaveformFile.Samples(new SampleShape { Kind = SampleKind.Text, SampleRate = 10_000_000 }).Text().Split('\n');
        rows[15_000] = "overflow,overflow";
        Recording read = Recording.Of(string.Join('\n', rows));
        read.Faults.Select(fault => (fault.Line, fault.Code)).Should().Equal((15_001, "waveform-row-invalid"));
        read.Broken.Should().OnlyContain(frame => frame.Why == FrameBreak.RecordingStopped || frame.Why == FrameBreak.PreambleMissing);
        read.Messages.Should().HaveCount(2);
    }

    [Fact]
    public void VoltagesOfAStatedRate_AreRead()
    {
        string[] rows = WaveformFile.Samples(new SampleShape { Kind = SampleKind.Text, SampleRate = 10_000_000 }).Text().TrimEnd().Split('\n');
        byte[] text = Encoding.UTF8.GetBytes("CC1 in volts\n" + string.Join('\n', rows.Skip(1).Select(row => row.Split(',')[1])));
        Recording.Of(text, options: WaveformFile.Options(SampleKind.Text, 10_000_000)).ShouldHoldTheConversation();
    }

    [Fact]
    public void HalfASample_IsAFault()
    {
        byte[] samples = WaveformFile.Samples(new SampleShape { Kind = SampleKind.I16 });
        Recording.Of(samples.AsSpan(0, samples.Length - 1), options: WaveformFile.Options(SampleKind.I16, 25_000_000)).FaultCodes.Should().Equal("samples-cut");
    }

    [Fact]
    public void NoiseAlone_IsNoFrame()
    {
        byte[] noise = new byte[3_000_000];
        SeededNumbers numbers = new(7);
        for (int i = 0; i < noise.Length; i++)
        {
            noise[i] = (byte)(100 + numbers.Next(-6, 6));
        }

        Recording read = Recording.Of(noise, options: WaveformFile.Options(SampleKind.U8, 25_000_000));
        read.FaultCodes.Should().Equal("waveform-without-frames");
        read.Broken.Should().BeEmpty();
    }

    // 1 MS/s gives three samples for a bit: what is read must say how little it knows of the rate.
    [Fact]
    public void CoarseSamples_SayHowUnsureTheRateIs()
    {
        SampleShape samples = new() { Kind = SampleKind.Bit, SampleRate = 4_000_000 };
        byte[] written = WaveformFile.Samples(samples, new LineShape { BitsPerSecond = 329_000 });
        Recording read = Recording.Of(written, options: WaveformFile.Options(SampleKind.Bit, 4_000_000));
        read.Qualities.Should().OnlyContain(quality => quality.RateUncertainty >= 800 && Math.Abs(quality.BitsPerSecond!.Value - 329_000) <= quality.RateUncertainty);
    }

    [Fact]
    public void CompressedSamples_AreReadWhenThatIsStated()
    {
        using MemoryStream packed = new();
        using (Stream gzip = Gzip.Pack(packed))
        {
            gzip.Write(WaveformFile.Samples(new SampleShape { Kind = SampleKind.U8 }));
        }

        CaptureReadOptions options = new() { Waveform = new WaveformOptions().With(WaveformOptions.ParseSamples("u8.gz@25MS/s")!) };
        Recording.Of(packed.ToArray(), options: options).ShouldHoldTheConversation();
        Recording.Of(packed.ToArray(), 7, options).ShouldHoldTheConversation();
    }

    [Theory]
    [InlineData("u8@25MS/s", SampleKind.U8, 25_000_000)]
    [InlineData("bit@1.25GS/s", SampleKind.Bit, 1_250_000_000)]
    [InlineData("bit-high-first@4000000S/s", SampleKind.BitHighFirst, 4_000_000)]
    [InlineData("text@2500kS/s", SampleKind.Text, 2_500_000)]
    public void StatedSamples_AreUnderstood(string text, SampleKind kind, long rate)
    {
        StatedSamples read = WaveformOptions.ParseSamples(text)!;
        (read.Kind, read.Rate, read.Bit).Should().Be((kind, rate, null));
    }

    // Eight or sixteen channels in a sample, as logic analysers save them: the others do what they like.
    [Theory]
    [InlineData("u8[2]@4MS/s", 1, 2)]
    [InlineData("u8[7]@4MS/s", 1, 7)]
    [InlineData("i16[0]@4MS/s", 2, 0)]
    [InlineData("i16[11]@4MS/s", 2, 11)]
    public void OneBitOfEachSample_IsTheLine(string text, int size, int bit)
    {
        byte[] bits = WaveformFile.Samples(new SampleShape { Kind = SampleKind.Bit, SampleRate = 4_000_000 });
        byte[] samples = new byte[bits.Length * 8 * size];
        Random noise = new(1);
        for (int sample = 0; sample < bits.Length * 8; sample++)
        {
            int value = noise.Next(1 << (8 * size)) & ~(1 << bit);
            value |= ((bits[sample / 8] >> (sample % 8)) & 1) << bit;
            for (int part = 0; part < size; part++)
            {
                samples[(sample * size) + part] = (byte)(value >> (8 * part));
            }
        }

        CaptureReadOptions options = new() { Waveform = new WaveformOptions().With(WaveformOptions.ParseSamples(text)!) };
        Recording.Of(samples, options: options).ShouldHoldTheConversation();
        Recording.Of(samples, 7, options).ShouldHoldTheConversation();
    }

    [Theory]
    [InlineData("")]
    [InlineData("u8")]
    [InlineData("u8@")]
    [InlineData("u8@S/s")]
    [InlineData("u9@25MS/s")]
    [InlineData("u8@25MHz")]
    [InlineData("u8@-25MS/s")]
    [InlineData("u8@500kS/s")]
    [InlineData("u8@1000GS/s")]
    [InlineData("u8@1000000.5S/s")]
    [InlineData("u8@25MS/s@2")]
    [InlineData("u8[8]@25MS/s")]
    [InlineData("i16[16]@25MS/s")]
    [InlineData("bit[0]@25MS/s")]
    [InlineData("f32[0]@25MS/s")]
    [InlineData("u8[]@25MS/s")]
    [InlineData("u8[-1]@25MS/s")]
    public void OtherWords_AreNot(string text) => WaveformOptions.ParseSamples(text).Should().BeNull();

    [Fact]
    public void LevelsAndUnits_AreUnderstood()
    {
        WaveformOptions.TryParseLevels("0.4,0.7", null, out (int, int) levels).Should().BeTrue();
        levels.Should().Be((400_000, 700_000));
        WaveformOptions.TryParseLevels("-3,90", SampleKind.U8, out levels).Should().BeTrue();
        levels.Should().Be((-3, 90));
        WaveformOptions.TryParseUnits("us,mV", out (int, int) units).Should().BeTrue();
        units.Should().Be((6, 3));
        foreach (string text in new[] { "", "0.4", "0.7,0.4", "a,b", "1,2,3", "1e99,2", "0.0000001,1" })
        {
            WaveformOptions.TryParseLevels(text, null, out _).Should().BeFalse(text);
        }

        WaveformOptions.TryParseUnits("mV,us", out _).Should().BeFalse();
    }
}
