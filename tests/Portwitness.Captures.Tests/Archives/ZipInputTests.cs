using System.IO.Compression;
using System.Text;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Tests.Waveforms;
using Portwitness.Captures.Waveforms;

namespace Portwitness.Captures.Tests.Archives;

/// <summary>Captures and samples in zip archives, as exports come.</summary>
public class ZipInputTests
{
    private static readonly byte[] Capture = File.ReadAllBytes(Recording.PathOf("bench.capture.jsonl"));

    [Fact]
    public void OnlyCaptureOfAnArchive_IsRead()
    {
        Recording plain = Recording.Of(Capture);
        foreach (int piece in new[] { 1, 97, int.MaxValue })
        {
            Recording read = Recording.Of(Zip(("export/c1.jsonl", Capture), ("export/about.json", "{\"version\":2}"u8.ToArray())), piece);

            read.Format.Should().Be("capture");
            read.Messages.Should().Equal(plain.Messages);
            read.FaultCodes.Where(static code => code == "signal-chosen").Should().ContainSingle();
        }

        Recording.Of(Zip(("c1.jsonl", Capture))).FaultCodes.Should().Equal(plain.FaultCodes);
    }

    [Fact]
    public void SeveralCaptures_AreNamedAndNotRead()
    {
        Recording read = Recording.Of(Zip(("a.jsonl", Capture), ("b.words", "0x0801912C"u8.ToArray())));

        read.Messages.Should().BeEmpty();
        read.Faults.Should().ContainSingle().Which.Detail.Should().Contain("a.jsonl").And.Contain("b.words");
        Recording.Of(Zip(("a.txt", "hello"u8.ToArray()))).FaultCodes.Should().Equal("archive-unsettled");
        Recording.Of(Zip()).FaultCodes.Should().Equal("archive-unsettled");
    }

    [Fact]
    public void SamplesInParts_AreReadInOrder()
    {
        byte[] samples = WaveformFile.Samples(new SampleShape { Kind = SampleKind.U8, SampleRate = 4_000_000 });
        int part = (samples.Length / 11) + 1;
        (string, byte[])[] parts = [.. samples.Chunk(part).Select(static (bytes, index) => ($"logic-1-{index + 1}", bytes)).Reverse()];
        CaptureReadOptions options = new() { Waveform = new WaveformOptions().With(WaveformOptions.ParseSamples("u8.zip@4MS/s")!) };

        Recording read = Recording.Of(Zip([("metadata", Encoding.UTF8.GetBytes("samplerate=4 MHz")), .. parts]), options: options);

        parts.Should().HaveCountGreaterThan(9, "10 comes behind 9");
        read.Messages.Should().HaveCount(WaveformFile.Conversation.Count(static sent => sent.Sop is not null));
        read.FaultCodes.Should().Equal("signal-chosen");
    }

    [Fact]
    public void DamagedArchive_IsAFault()
    {
        byte[] zip = Zip(("c1.jsonl", Capture));
        for (int length = 4; length < zip.Length; length += 97)
        {
            Recording.Of(zip.AsSpan(0, length)).FaultCodes.Should().Equal("archive-invalid");
        }
    }

    // 200 MB of zeros in some hundred kB.
    [Fact]
    public void Bomb_IsNotUnpackedToItsEnd()
    {
        CaptureReadOptions options = new() { Waveform = new WaveformOptions().With(WaveformOptions.ParseSamples("u8.zip@4MS/s")!) };

        Recording.Of(Zip(("a-1", new byte[200 << 20])), options: options).FaultCodes.Should().Contain("archive-too-long");
    }

    private static byte[] Zip(params (string Name, byte[] Bytes)[] files)
    {
        using MemoryStream bytes = new();
        using (ZipArchive zip = new(bytes, ZipArchiveMode.Create))
        {
            foreach ((string name, byte[] content) in files)
            {
                using Stream entry = zip.CreateEntry(name).Open();
                entry.Write(content);
            }
        }

        return bytes.ToArray();
    }
}
