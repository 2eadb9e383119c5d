using System.Formats.Tar;
using System.IO.Compression;
using System.Text;
using CsCheck;
using Portwitness.Captures.Formats;

namespace Portwitness.Captures.Tests;

/// <summary>Archives of the kernel's directory: written here by .NET's own writers of tar and gzip.</summary>
public class ArchiveTests
{
    private const string Long = "sys/devices/pci0000:00/0000:00:1d.0/0000:3c:00.0/0000:3d:02.0/0000:3e:00.0/usb3/typec/port0/port0-partner/pd1/";

    public static TheoryData<TarEntryFormat, string, bool> Archives => new()
    {
        { TarEntryFormat.Ustar, "pd1/", false }, { TarEntryFormat.Ustar, Long, false }, { TarEntryFormat.Pax, Long, true },
        { TarEntryFormat.Gnu, Long, true }, { TarEntryFormat.Gnu, "./", false }, { TarEntryFormat.Pax, "pd1/", false },
    };

    [Theory]
    [MemberData(nameof(Archives))]
    public void ArchiveOfTheDirectory_SaysWhatItsTextSays(TarEntryFormat format, string top, bool packed)
    {
        byte[] archive = Tar(format, top, Tree());

        Recording read = Recording.Of(packed ? Gzip(archive) : archive);

        read.Faults.Should().BeEmpty();
        read.Format.Should().Be("sysfs");
        KeptMessage ofText = Recording.OfFile("sysfs-pd1.txt").Messages.Single();
        read.Messages.Single().Should().Be(ofText with { Line = read.Messages.Single().Line });
    }

    // tar reads a size of 4096 from sysfs and fills up what it does not get.
    [Fact]
    public void FilesFilledUpWithZeroBytes_AreReadWithoutThem()
    {
        Recording read = Recording.Of(Tar(
            TarEntryFormat.Gnu, "pd1/", Tree().Select(file => (file.Path, file.Content + new string('\0', 4096 - file.Content.Length)))));

        read.Faults.Should().BeEmpty();
        read.Messages.Single().Hex.Should().Be(Recording.OfFile("sysfs-pd1.txt").Messages.Single().Hex);
    }

    // How far damaged data is unpacked must not depend on the pieces in which it comes.
    [Fact]
    public void DamagedGzip_IsReadToTheSameInPiecesOfAnySize()
    {
        byte[] good = Gzip(Encoding.UTF8.GetBytes("{\"capture\":1}\n" + string.Concat(Enumerable.Range(0, 3000).Select(
            i => $"{{\"t\":{i * i},\"sop\":\"SOP\",\"hex\":\"8100\",\"x\":{i * 7919 % 1000}}}\n"))));
        for (int at = good.Length / 3; at < good.Length; at += good.Length / 7)
        {
            byte[] damaged = [.. good];
            damaged[at] ^= 0x40;
            List<string> whole = Recording.Of(damaged).Calls;
            foreach (int piece in new[] { 1, 97, 4096 })
            {
                Recording.Of(damaged, piece).Calls.Should().Equal(whole, "byte {0}, pieces of {1}", at, piece);
            }
        }
    }

    [Fact]
    public void FaultInAnArchive_NamesTheEntryAndThePath()
    {
        Recording read = Recording.Of(Tar(
            TarEntryFormat.Ustar, "pd1/",
            [("source-capabilities/1:fixed_supply/voltage", "5000mV\n"), ("source-capabilities/1:fixed_supply/maximum_current", "3 A\n")]));

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((2, 0, "sysfs-value-invalid"));
        read.Faults.Single().Detail.Should().Contain("'pd1/source-capabilities/1:fixed_supply/maximum_current'");
    }

    [Fact]
    public void HugeFileInAnArchive_IsLeftOut()
    {
        Recording read = Recording.Of(Tar(
            TarEntryFormat.Ustar, "pd1/",
            [("source-capabilities/1:fixed_supply/voltage", new string('1', 5000)), ("source-capabilities/1:fixed_supply/maximum_current", "3000mA\n")]));

        read.Faults.Select(f => (f.Line, f.Code)).Should().Equal((1, "archive-too-long"));
        read.Messages.Single().Hex.Should().Be("01102C010000");
    }

    [Fact]
    public void OddNamesAndLinks_AreHarmless()
    {
        using MemoryStream stream = new();
        using (TarWriter writer = new(stream, TarEntryFormat.Pax, leaveOpen: true))
        {
            foreach (string name in new[]
            {
                "../../etc/passwd", "/etc/passwd", "pd1/source-capabilities/../1:fixed_supply/voltage", "a\u001b[2Jb", "\u00fc\n1:x/y",
                "pd1/source-capabilities/1:fixed_supply/\u001b[2Jvoltage", "pd1/source-capabilities/9:\u001b[2J/voltage", new('x', 3000),
            })
            {
                writer.WriteEntry(new PaxTarEntry(TarEntryType.RegularFile, name) { DataStream = new MemoryStream("5000mV\n"u8.ToArray()) });
            }

            writer.WriteEntry(new PaxTarEntry(TarEntryType.SymbolicLink, "pd1/subsystem") { LinkName = "/sys/class/usb_power_delivery" });
            writer.WriteEntry(new PaxTarEntry(TarEntryType.Directory, "pd1/source-capabilities/"));
        }

        Recording read = Recording.Of(stream.ToArray());

        read.FaultCodes.Should().Equal("sysfs-position-invalid");
        read.Faults.Single().Detail.Should().Contain("\\x1B").And.NotContain("\u001b");
        read.Messages.Should().OnlyContain(message => message.Known == "1F80000000C0");
    }

    [Fact]
    public void ArchiveCutAnywhere_IsReadUpToThereAndNeverThrows()
    {
        byte[] archive = Tar(TarEntryFormat.Pax, "pd1/", Tree().Take(8));
        for (int length = 512; length < archive.Length - 1024; length += 37)
        {
            Recording read = Recording.Of(archive.AsSpan(0, length));

            read.Headers.Should().ContainSingle();
            read.FaultCodes.Where(code => code == "archive-invalid").Should().HaveCountLessThanOrEqualTo(1);
        }

        Recording.Of(archive.AsSpan(0, 512 + 3)).FaultCodes.Should().Equal("archive-invalid", "sysfs-without-objects");
    }

    [Theory]
    [InlineData(1)]
    [InlineData(511)]
    [InlineData(512)]
    [InlineData(513)]
    [InlineData(5000)]
    public void PiecesOfAnySize_GiveTheSame(int piece)
    {
        byte[] archive = Tar(TarEntryFormat.Gnu, Long, Tree());

        Recording.Of(archive, piece).Calls.Should().Equal(Recording.Of(archive).Calls);
        Recording.Of(Gzip(archive), piece).Calls.Should().Equal(Recording.Of(archive).Calls);
    }

    [Fact]
    public void HeaderThatClaimsGigabytes_TakesNoMemory()
    {
        byte[] archive = Tar(TarEntryFormat.Ustar, "pd1/", [("source-capabilities/1:fixed_supply/voltage", "5000mV\n")]);
        foreach (char type in "0LxgKS")
        {
            byte[] hostile = [.. archive.AsSpan(0, 512), .. new byte[4096]];
            hostile[156] = (byte)type;
            "77777777777"u8.CopyTo(hostile.AsSpan(124));
            FixChecksum(hostile);
            long before = GC.GetAllocatedBytesForCurrentThread();

            Recording read = Recording.Of(hostile);

            (GC.GetAllocatedBytesForCurrentThread() - before).Should().BeLessThan(1 << 20);
            read.FaultCodes.Should().Equal("archive-invalid", "sysfs-without-objects");
        }
    }

    [Fact]
    public void DamagedHeader_EndsTheReading()
    {
        byte[] archive = Tar(TarEntryFormat.Ustar, "pd1/", Tree());
        archive[1024 + 5] ^= 1;

        Recording read = Recording.Of(archive);

        read.Faults[0].Should().Match<CaptureFault>(fault => fault.Line == 2 && fault.Code == "archive-invalid");
    }

    [Fact]
    public void GzipBomb_IsReadUpToItsLimit()
    {
        using MemoryStream packed = new();
        using (GZipStream gzip = new(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            byte[] lines = Encoding.UTF8.GetBytes("0x0801912C" + new string('\n', 66_000));
            for (int round = 0; round < 2000; round++)
            {
                gzip.Write(lines);
            }
        }

        packed.Length.Should().BeLessThan(1 << 20);
        long before = GC.GetAllocatedBytesForCurrentThread();

        Recording read = Recording.Of(packed.ToArray());

        read.FaultCodes.Should().Equal("words-unplaced", "archive-too-long");
        (GC.GetAllocatedBytesForCurrentThread() - before).Should().BeLessThan(8 << 20);
    }

    [Fact]
    public void LongCompressedInput_IsReadToItsEndAndNotHeld()
    {
        byte[] packed = Gzip(Encoding.UTF8.GetBytes("{\"capture\":1}\n" + string.Concat(Enumerable.Range(0, 200_000).Select(
            message => $"{{\"t\":{message * 37L},\"sop\":\"SOP\",\"hex\":\"{(ushort)(message * 40503):X4}\"}}\n"))));
        packed.Length.Should().BeGreaterThan(1 << 20);
        CountingSink counter = new();
        long before = GC.GetAllocatedBytesForCurrentThread();

        CaptureReader reader = new(counter);
        reader.Write(packed);
        reader.Complete();

        counter.Messages.Should().Be(200_000);
        counter.Faults.Should().Be(0);
        (GC.GetAllocatedBytesForCurrentThread() - before).Should().BeLessThan(1 << 20);
    }

    [Fact]
    public void CompressedFileOfAnotherFormat_IsReadToo()
    {
        byte[] capture = File.ReadAllBytes(Recording.PathOf("bench.capture.jsonl"));

        Recording.Of(Gzip(capture)).Calls.Should().Equal(Recording.Of(capture).Calls);
    }

    // RFC 1952, 2.2: a file is a series of members. gzip(1) makes one of each of its inputs, which is how logs are joined; the file of
    // test data was made by it, with an empty last member, and filled up with zero bytes as tape blocks are.
    [Theory]
    [InlineData(1)]
    [InlineData(100)]
    [InlineData(1 << 20)]
    public void MembersOfGzip_AreOneFile(int piece)
    {
        Recording read = Recording.Of(File.ReadAllBytes(Recording.PathOf("members.capture.jsonl.gz")), piece);

        read.Calls.Should().Equal(Recording.OfFile("bench.capture.jsonl").Calls);
    }

    public static TheoryData<int[], int> Members => new()
    {
        { [0], 0 }, { [10, 0], 0 }, { [0, 10], 0 }, { [10, 0, 0, 10, 0], 0 }, { [50_000, 50_000], 0 }, { [10], 1 }, { [10, 0], 7 }, { [10, 10], 511 },
        { [10, 10], 512 }, { [10, 10], 513 }, { [50_000, 10, 0], 40_000 }, { [1_000], 100_000 },
    };

    // Of zlib, in every place that the members may have in what is read at once; then cut, then followed by something else.
    [Theory]
    [MemberData(nameof(Members))]
    public void Members_AreReadWholeAndNothingElseIs(int[] records, int zeros)
    {
        int time = 0;
        string[] parts = [.. records.Select(count => string.Concat(Enumerable.Range(0, count).Select(_ => $"{{\"t\":{++time},\"rp\":\"{(time * 7919 % 5 < 2 ? "3A" : "1.5A")}\"}}\n")))];
        string text = "{\"capture\":1}\n" + string.Concat(parts);
        byte[] packed = [.. Gzip(Encoding.UTF8.GetBytes("{\"capture\":1}\n")), .. parts.SelectMany(part => Gzip(Encoding.UTF8.GetBytes(part)))];
        byte[] filled = [.. packed, .. new byte[zeros]];

        Recording.Of(filled).Calls.Should().Equal(Recording.Of(text).Calls);
        Recording.Of(filled, 997).Calls.Should().Equal(Recording.Of(text).Calls);
        Recording.Of(packed.AsSpan(0, packed.Length - 1)).FaultCodes.Should().Contain("archive-invalid");
        Recording.Of(packed.AsSpan(0, packed.Length - 9)).FaultCodes.Should().Contain("archive-invalid");
        Recording.Of((byte[])[.. filled, 1]).FaultCodes.Should().Contain("archive-invalid");
        Recording.Of((byte[])[.. packed, 0x1F]).FaultCodes.Should().Contain("archive-invalid");
        Recording.Of((byte[])[.. packed, .. Encoding.UTF8.GetBytes(text)]).FaultCodes.Should().Contain("archive-invalid");
    }

    // Wherever a file of several members is cut but between them, it is said.
    [Fact]
    public void MembersThatAreCut_AreReportedWherever()
    {
        byte[] first = Gzip("{\"capture\":1}\n{\"t\":1,\"rp\":\"3A\"}\n"u8.ToArray());
        byte[] packed = [.. first, .. Gzip("{\"t\":2,\"rp\":\"3A\"}\n"u8.ToArray())];
        for (int length = 18; length < packed.Length; length++)
        {
            Recording.Of(packed.AsSpan(0, length)).FaultCodes.Contains("archive-invalid").Should().Be(length != first.Length, "{0} bytes are there", length);
        }
    }

    [Fact]
    public void CompressedFileInACompressedFile_IsUnknown() =>
        Recording.Of(Gzip(Gzip("0x0801912C"u8.ToArray()))).FaultCodes.Should().Equal("format-unknown");

    [Fact]
    public void CompressedNothing_IsEmpty() => Recording.Of(Gzip([])).FaultCodes.Should().Equal("input-empty");

    [Fact]
    public void DamagedCompressedFile_IsReportedWherever()
    {
        byte[] good = Gzip(Tar(TarEntryFormat.Gnu, "pd1/", Tree()));
        Gen.Select(Gen.Int[10, good.Length - 1], Gen.Byte).Sample(
            change =>
            {
                byte[] changed = [.. good];
                changed[change.Item1] = change.Item2;
                Recording read = Recording.Of(changed);
                if (read.Faults.Count == 0)
                {
                    // Not every bit of a compressed file matters.
                    read.Calls.Should().Equal(Recording.Of(good).Calls);
                }
            },
            seed: "0000000000001",
            iter: 500);
        Recording.Of([0x1F, 0x8B, 8]).FaultCodes.Should().Equal("archive-invalid");
        Recording.Of(good.AsSpan(0, good.Length / 2)).FaultCodes.Should().Contain("archive-invalid");
    }

    [Fact]
    public void ArchiveWithBytesChanged_NeverThrowsAndGivesOneHeader()
    {
        byte[] good = Tar(TarEntryFormat.Pax, Long, Tree());
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
            },
            seed: "0000000000001",
            iter: 500);
    }

    /// <summary>The files of sysfs-pd1.txt, in its order.</summary>
    private static (string Path, string Content)[] Tree() =>
        [.. File.ReadAllLines(Recording.PathOf("sysfs-pd1.txt")).Select(line =>
        {
            string path = line["/sys/class/typec/port0-partner/usb_power_delivery/".Length..];
            int colon = path.LastIndexOf(':');
            return (path[..colon], path[(colon + 1)..] + "\n");
        })];

    private static byte[] Tar(TarEntryFormat format, string top, IEnumerable<(string Path, string Content)> files)
    {
        using MemoryStream stream = new();
        using (TarWriter writer = new(stream, format, leaveOpen: true))
        {
            foreach ((string path, string content) in files)
            {
                TarEntry entry = format switch
                {
                    TarEntryFormat.Ustar => new UstarTarEntry(TarEntryType.RegularFile, top + path),
                    TarEntryFormat.Gnu => new GnuTarEntry(TarEntryType.RegularFile, top + path),
                    _ => new PaxTarEntry(TarEntryType.RegularFile, top + path),
                };
                entry.DataStream = new MemoryStream(Encoding.UTF8.GetBytes(content));
                writer.WriteEntry(entry);
            }
        }

        return stream.ToArray();
    }

    internal static byte[] Gzip(byte[] content)
    {
        using MemoryStream packed = new();
        using (GZipStream gzip = new(packed, CompressionLevel.Fastest))
        {
            gzip.Write(content);
        }

        return packed.ToArray();
    }

    private static void FixChecksum(byte[] header)
    {
        header.AsSpan(148, 8).Fill((byte)' ');
        int sum = header.Take(512).Sum(value => value);
        Encoding.ASCII.GetBytes(Convert.ToString(sum, 8).PadLeft(6, '0') + "\0 ").CopyTo(header, 148);
    }
}
