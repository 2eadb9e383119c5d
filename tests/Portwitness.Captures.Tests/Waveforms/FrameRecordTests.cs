using System.Text;
using Portwitness.Captures.Formats;
using Portwitness.Captures.JsonLines;
using Portwitness.Captures.Waveforms;
using Portwitness.PowerDelivery.Framing;
using Portwitness.Tests;

namespace Portwitness.Captures.Tests.Waveforms;

/// <summary>Frames of a line as records, in captures and in a recording that another encoder made.</summary>
public class FrameRecordTests
{
    private const string Lines =
        """
        {"capture":1,"port":"C1"}
        {"t":1000,"sop":"SOP","hex":"8100","crc":"F5BB4163","crc_ok":true,"bit_rate":299870,"bit_rate_pm":33,"drift_ppm":-120,"jitter_ns":41,"preamble_bits":64,"set_symbols":3,"glitches":2}
        {"t":2000,"sop":"SOP'","broke":"symbol-invalid","bit":94,"broke_at":2313,"part":"A1","bit_rate":300012,"preamble_bits":64,"x":1}
        {"t":3000,"signal":"hard-reset","bit_rate":300000,"bit_rate_pm":12}
        {"t":4000,"broke":"preamble-missing"}

        """;

    [Fact]
    public void Capture_CarriesQualityAndBrokenFrames_ThereAndBack()
    {
        Recording read = Recording.Of(Lines);
        read.Faults.Should().BeEmpty();
        read.Qualities.Single().Should().Be(new FrameQuality(299_870, 33, -120, 41, 64, 3, 2));
        read.Messages.Single().Extra.Should().BeEmpty();
        read.Signals.Single().Quality.BitsPerSecond.Should().Be(300_000);
        (read.Broken[0].Why, read.Broken[0].Bit, read.Broken[0].BrokeAtUs, read.Broken[0].Sop, read.Broken[0].Extra)
            .Should().Be((FrameBreak.SymbolInvalid, 94, 2313, SopKind.SopPrime, "{\"x\":1}"));
        read.Broken[0].Part.Should().Equal(0xA1);
        read.Broken[1].Why.Should().Be(FrameBreak.PreambleMissing);

        MemoryStream stream = new();
        using (CaptureWriter writer = new(stream))
        {
            CaptureReader reader = new(writer);
            reader.Write(Encoding.UTF8.GetBytes(Lines));
            reader.Complete();
        }

        Encoding.UTF8.GetString(stream.ToArray()).Should().Be(Lines);
    }

    [Fact]
    public void Pcapng_CarriesThemToo()
    {
        Recording expected = Recording.Of(Lines);
        MemoryStream stream = new();
        using (Portwitness.Captures.Pcapng.PcapngWriter writer = new(stream))
        {
            CaptureReader reader = new(writer);
            reader.Write(Encoding.UTF8.GetBytes(Lines));
            reader.Complete();
        }

        Recording read = Recording.Of(stream.ToArray());
        read.Faults.Should().BeEmpty();
        read.Qualities.Should().Equal(expected.Qualities);
        read.Signals.Select(signal => signal.Quality).Should().Equal(expected.Signals.Select(signal => signal.Quality));
        read.Broken.Should().BeEquivalentTo(expected.Broken, options => options.Excluding(frame => frame.Line).WithStrictOrdering());
    }

    // Jitter of 100 ns at both ends of 32 bits: the square of 300 kbit/s times 200 ns over 32 are 562 bit/s.
    [Fact]
    public void JitterOfEdges_IsPartOfTheRatesUncertainty()
    {
        FrameQuality steady = QualityOf(0);
        FrameQuality shaken = QualityOf(100);

        steady.RateUncertainty.Should().BeInRange(1, 10);
        shaken.JitterNs.Should().BeInRange(20, 200);
        long ofJitter = (long)shaken.BitsPerSecond!.Value * shaken.BitsPerSecond.Value * 2 * shaken.JitterNs!.Value / (32 * 1_000_000_000L);
        shaken.RateUncertainty.Should().BeInRange((int)ofJitter, (int)ofJitter + 15);

        static FrameQuality QualityOf(int jitterNs)
        {
            MemoryStream stream = new();
            using (VcdWriter writer = new(stream, new LineShape { JitterNs = jitterNs }))
            {
                writer.OnHeader(new CaptureHeader { Format = "capture" });
                writer.OnMessage(new MessageRecord { TimeUs = 1000, Line = 0, Sop = SopKind.Sop, Bytes = [0x81, 0] });
            }

            return Recording.Of(stream.ToArray()).Qualities.Single();
        }
    }

    // What is behind a hole may lack its beginning, whatever it looks like: rate and preamble of the first frame say nothing.
    [Fact]
    public void FirstFrameBehindAHole_TellsNothingOfItsSender()
    {
        MemoryStream stream = new();
        using (VcdWriter writer = new(stream))
        {
            writer.OnHeader(new CaptureHeader { Format = "capture" });
            foreach (long time in new[] { 1_000, 5_000, 9_000 })
            {
                writer.OnMessage(new MessageRecord { TimeUs = time, Line = 0, Sop = SopKind.Sop, Bytes = [0x81, 0] });
            }
        }

        string text = Encoding.UTF8.GetString(stream.ToArray());
        int at = text.IndexOf("#5000", StringComparison.Ordinal);
        Recording read = Recording.Of(text.Insert(at, "#3000000\n$dumpoff\nx!\n$end\n#4000000\n$dumpon\n0!\n$end\n"));

        read.Qualities.Select(quality => (quality.PreambleBits >= 63, quality.BitsPerSecond > 0, quality.SetSymbols)).Should()
            .Equal((true, true, 4), (false, false, 4), (true, true, 4));
    }

    // R3.2v1.1, 5.8.1: a frame of two bytes takes 64 + 20 + 60 + 5 bits, 497 us at 300 kbit/s, and 25 us lie behind it.
    [Fact]
    public void FramesTooCloseForTheLine_AreMovedAndTold()
    {
        MemoryStream stream = new();
        using ICaptureWriter writer = CaptureFormats.Find("vcd").Format!.Begin(stream, packed: false);
        writer.OnHeader(new CaptureHeader { Format = "capture" });
        foreach (long time in new[] { 1_000, 1_100, 5_000, 5_600 })
        {
            writer.OnMessage(new MessageRecord { TimeUs = time, Line = 0, Sop = SopKind.Sop, Bytes = [0x81, 0] });
        }

        writer.OnSignal(new SignalRecord(5_600, 0, SignalKind.HardReset));
        writer.MovedCount.Should().Be(2);
        writer.Moved.Select(moved => (moved.Kind, moved.FromUs)).Should().Equal(("messages", 1_100), ("signals", 5_600));
        writer.Moved[0].ToUs.Should().BeInRange(1_000 + 497 + 25, 1_000 + 497 + 45);
    }

    [Fact]
    public void MovedFrames_AreListedUpToAHundred()
    {
        using ICaptureWriter writer = CaptureFormats.Find("x.vcd.gz").Format!.Begin(new MemoryStream(), packed: true);
        writer.OnHeader(new CaptureHeader { Format = "capture" });
        for (int message = 0; message < 500; message++)
        {
            writer.OnMessage(new MessageRecord { TimeUs = 0, Line = 0, Sop = SopKind.Sop, Bytes = [0x81, 0] });
        }

        (writer.MovedCount, writer.Moved.Count).Should().Be((499, 100));
    }

    [Theory]
    [InlineData("\"broke\":\"often\"")]
    [InlineData("\"broke\":\"not-ended\",\"bit\":-1")]
    [InlineData("\"broke\":\"not-ended\",\"part\":\"A\"")]
    [InlineData("\"broke\":\"not-ended\",\"broke_at\":-1")]
    [InlineData("\"broke\":\"not-ended\",\"bit_rate\":1.5")]
    public void MembersThatCannotBe_AreFaults(string members) =>
        Recording.Of($"{{\"capture\":1}}\n{{\"t\":1,{members}}}\n").FaultCodes.Should().Equal("member-invalid");

    [Fact]
    public void QualityBesideNoFrame_IsKeptAndMeansNothing()
    {
        Recording read = Recording.Of("{\"capture\":1}\n{\"t\":1,\"vbus_mv\":5000,\"bit_rate\":300000,\"part\":\"A1\"}\n");
        read.Faults.Should().BeEmpty();
        read.Measurements.Single().Extra.Should().Be("{\"part\":\"A1\",\"bit_rate\":300000}");
    }

    [Fact]
    public void EveryWord_IsReadAsItIsWritten()
    {
        FrameBreaks.All.Should().HaveCount(Enum.GetValues<FrameBreak>().Length - 1);
        foreach (string word in FrameBreaks.All)
        {
            FrameBreaks.TryParse(word, out FrameBreak why).Should().BeTrue();
            why.ToWord().Should().Be(word);
        }

        FrameBreaks.TryParse("", out _).Should().BeFalse();
    }

    // captures/line/c1.vcd was not made by this project's encoder: CRCs are zlib's, and times are those of an instrument at 25 MS/s.
    [Fact]
    public void DemoRecording_IsRead()
    {
        byte[] dump = File.ReadAllBytes(Repository.PathOf("captures", "line", "c1.vcd"));
        Recording read = Recording.Of(dump, options: WaveformFile.Signal("cc1"));
        read.Faults.Should().BeEmpty();
        read.Broken.Should().BeEmpty();
        read.Messages.Select(message => message.Hex).Should().Equal(
            "A1412C9101082CD102002CB1040045410600", "8100", "821045150543", "A101", "A303", "8102", "A605", "8104");
        read.Messages.Should().OnlyContain(message => message.CrcOk == true);
        read.Qualities.Should().OnlyContain(quality => quality.PreambleBits == 64 && quality.RateUncertainty > 30);
    }
}
