using System.Text;
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
