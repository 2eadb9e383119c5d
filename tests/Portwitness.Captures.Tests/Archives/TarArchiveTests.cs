using System.Formats.Tar;
using System.IO.Compression;
using Portwitness.Captures.Archives;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Tests.Waveforms;
using Portwitness.Captures.Waveforms;

namespace Portwitness.Captures.Tests.Archives;

/// <summary>Captures in tar archives, written by .NET's own writer, and in folders.</summary>
public class TarArchiveTests
{
    private static readonly byte[] Capture = File.ReadAllBytes(Recording.PathOf("bench.capture.jsonl"));

    private static readonly string[] Table =
        WaveformFile.Samples(new SampleShape { Kind = SampleKind.Text, SampleRate = 5_000_000 }).Text().Split('\n', StringSplitOptions.RemoveEmptyEntries);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void OnlyCaptureOfAnArchive_IsRead(bool packed)
    {
        byte[] tar = Tar(("export/c1.jsonl", Capture), ("export/about.json", "{\"version\":2}"u8.ToArray()), ("export/._c1.jsonl", Capture));
        foreach (int piece in new[] { 1, 511, int.MaxValue })
        {
            Recording read = Recording.Of(packed ? Gzip(tar) : tar, piece);

            read.Format.Should().Be("capture");
            read.Messages.Should().Equal(Recording.Of(Capture).Messages);
            read.Faults.Should().ContainSingle(static fault => fault.Code == "signal-chosen")
                .Which.Detail.Should().Be("Of the tar archive was read: export/c1.jsonl; left out: export/about.json.");
        }
    }

    [Fact]
    public void SeveralCaptures_AreNamedAndNotRead()
    {
        Recording read = Recording.Of(Tar(("c1.jsonl", Capture), ("c2.jsonl", Capture)));

        read.Messages.Should().BeEmpty();
        read.Faults.Should().ContainSingle().Which.Detail.Should().Be("The tar archive holds several captures: c1.jsonl, c2.jsonl. Give each on its own.");
        Recording.Of(Tar(("a.txt", "hello"u8.ToArray()))).FaultCodes.Should().Equal("archive-unsettled");
    }

    [Fact]
    public void ArchiveInAnArchive_IsNotFollowedWithoutEnd()
    {
        byte[] nested = Tar(("c1.jsonl", Capture));
        for (int depth = 0; depth < 50; depth++)
        {
            nested = Tar(("inner.tar", nested));
        }

        Recording.Of(nested).FaultCodes.Should().Equal("archive-unsettled");
        Recording.Of(Gzip(nested)).FaultCodes.Should().Equal("archive-unsettled");
    }

    [Theory]
    [InlineData("u8.tar@4MS/s", false)]
    [InlineData("u8.tar.gz@4MS/s", true)]
    public void SamplesInParts_AreReadInOrder(string stated, bool packed)
    {
        byte[] samples = WaveformFile.Samples(new SampleShape { Kind = SampleKind.U8, SampleRate = 4_000_000 });
        (string, byte[])[] parts = [.. samples.Chunk((samples.Length / 11) + 1).Select(static (bytes, index) => ($"logic-1-{index + 1}", bytes)).Reverse()];
        byte[] tar = Tar([("metadata", "samplerate=4 MHz"u8.ToArray()), .. parts]);
        CaptureReadOptions options = new() { Waveform = new WaveformOptions().With(WaveformOptions.ParseSamples(stated)!) };

        Recording read = Recording.Of(packed ? Gzip(tar) : tar, options: options);

        read.Messages.Should().HaveCount(WaveformFile.Conversation.Count(static sent => sent.Sop is not null));
        read.Faults.Should().ContainSingle().Which.Detail.Should().EndWith("logic-1-10, logic-1-11, in this order; left out: metadata.");
    }

    // An oscilloscope that saves a long run in parts, each with the heading.
    [Fact]
    public void NumberedPartsOfATable_AreOneCapture()
    {
        string[][] rows = [.. Table.Skip(1).Chunk((Table.Length / 3) + 1)];
        (string, byte[])[] files = [.. rows.Select((part, index) => ($"run_{index + 1}.csv", Bytes([Table[0], .. part])))];

        Recording read = Recording.Of(Folder([.. files.Reverse(), ("notes.txt", "bench 2"u8.ToArray())]));

        read.Faults.Should().ContainSingle().Which.Detail.Should().Be("Of the folder was read: run_1.csv, run_2.csv, run_3.csv, in this order; left out: notes.txt.");
        read.Messages.Should().Equal(Recording.Of(Bytes(Table)).Messages.Select((message, at) => message with { Line = read.Messages[at].Line }));
    }

    // Times that begin anew are another run: nothing says how far apart the two were.
    [Fact]
    public void NumberedFilesOfWhichTimesBeginAnew_AreSeveralCaptures()
    {
        Recording read = Recording.Of(Folder([("run_1.csv", Bytes(Table)), ("run_2.csv", Bytes(Table))]));

        read.Messages.Should().BeEmpty();
        read.FaultCodes.Should().Equal("archive-unsettled");
    }

    // The plug is turned in the middle: what one line has first, the other goes on with.
    [Fact]
    public void OneFileForEachCcLine_IsOneCapture()
    {
        int half = Table.Length / 2;
        string[] idle = [.. Table.Skip(1).Select(static row => row.Split(',')[0] + ",1.680")];
        string[] first = [Table[0], .. Table[1..half], .. idle[(half - 1)..]];
        string[] second = [Table[0], .. idle[..(half - 1)], .. Table[half..]];

        Recording read = Recording.Of(Folder([("export/cc1.csv", Bytes(first)), ("export/cc2.csv", Bytes(second)), ("export/vbus.txt", "5 V"u8.ToArray())]));

        read.Messages.Where(static message => message.CrcOk == true).Should().HaveCountGreaterThanOrEqualTo(2);
        read.Faults.Select(static fault => fault.Detail).Should().Contain("Of the folder was read: export/cc1.csv, export/cc2.csv, as the two CC lines of one port; left out: export/vbus.txt.");
        read.Headers.Should().ContainSingle();
    }

    private static byte[] Bytes(IEnumerable<string> lines) => System.Text.Encoding.UTF8.GetBytes(string.Join('\n', lines) + "\n");

    private static byte[] Folder((string Name, byte[] Bytes)[] files)
    {
        using MemoryStream copy = new();
        FolderArchive.Pack(files.Select(static file => (file.Name, (Func<Stream>)(() => new MemoryStream(file.Bytes))))).CopyTo(copy);
        return copy.ToArray();
    }

    private static byte[] Tar(params (string Name, byte[] Bytes)[] files)
    {
        using MemoryStream bytes = new();
        using (TarWriter tar = new(bytes, TarEntryFormat.Ustar))
        {
            foreach ((string name, byte[] content) in files)
            {
                tar.WriteEntry(new UstarTarEntry(TarEntryType.RegularFile, name) { DataStream = new MemoryStream(content) });
            }
        }

        return bytes.ToArray();
    }

    private static byte[] Gzip(byte[] bytes)
    {
        using MemoryStream packed = new();
        using (GZipStream gzip = new(packed, CompressionMode.Compress))
        {
            gzip.Write(bytes);
        }

        return packed.ToArray();
    }
}
