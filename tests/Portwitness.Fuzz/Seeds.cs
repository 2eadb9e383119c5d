using System.Formats.Tar;
using System.IO.Compression;
using System.Text;
using Portwitness.Captures;
using Portwitness.Captures.Archives;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Offers;
using Portwitness.Captures.Waveforms;
using Portwitness.Tests;

namespace Portwitness.Fuzz;

/// <summary>Good inputs of each format: files of the project, and what its own writers make of them.</summary>
internal static class Seeds
{
    private delegate ICaptureWriter Open(Stream stream);

    /// <summary>Captures of the demo, of the tests, and one with all kinds of records.</summary>
    public static byte[][] JsonLines { get; } =
    [
        .. Directory.GetFiles(Repository.PathOf("captures"), "c1*.capture.jsonl", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(File.ReadAllBytes),
        Test("bench.capture.jsonl"),
        Encoding.UTF8.GetBytes(
            """
            {"capture":1,"port":"C1","in_use":["C1","C2"],"started":"2026-03-02T09:14:07Z","cable":{"kind":"detachable","current_a":5},"accuracy":{"vbus_mv":5},"records_sop":["SOP"],"x":{"y":[1]}}
            {"t":0,"event":"attach","port":"C2"}
            {"t":10,"sop":"SOP","hex":"A1612C9101082CD102002CB1040045410600","crc":"424F168A","crc_ok":true}
            {"t":20,"vbus_mv":5012,"ibus_ma":-480}
            {"t":30,"signal":"hard-reset"}
            {"t":40,"sop":"SOP'","hex":"4102","known":"FF01","crc_ok":false}
            {"t":50,"line":"bc1.2-dcp"}
            """),
    ];

    /// <summary>The same in the binary form.</summary>
    public static byte[][] Pcapng { get; } = [.. JsonLines.Select(seed => Written(seed, stream => CaptureFormats.Find("pcapng").Format!.Open(stream, null)))];

    /// <summary>The digital CC line.</summary>
    public static byte[][] Vcd { get; } = [.. JsonLines.Select(seed => Written(Beginning(seed), stream => new VcdWriter(stream))), File.ReadAllBytes(Repository.PathOf("captures", "line", "c1.vcd"))];

    /// <summary>A table of an analyser, and plain ones.</summary>
    public static byte[][] Table { get; } =
    [
        File.ReadAllBytes(Repository.PathOf("captures", "tables", "analyser.csv")),
        "time (ms),sop,hex\n0.25,SOP,A1412C9101082CD102002CB1040045410600\n1.5,SOP,8100\n"u8.ToArray(),
        "Time\tSOP\tHex\n00:00:01.250\tSOP\t0x8100\n"u8.ToArray(),
    ];

    /// <summary>Measurements.</summary>
    public static byte[][] Measurements { get; } =
        [File.ReadAllBytes(Repository.PathOf("captures", "tables", "meter.csv")), "t;U/V;I/A\n0;5,01;0,5\n1e-3;9,01;-3\n"u8.ToArray()];

    /// <summary>Logs of the kernel.</summary>
    public static byte[][] KernelLog { get; } = [Test("kernel-log-02.log"), Test("kernel-log-05.log"), Test("kernel-log-08.log")];

    /// <summary>The kernel's directory as text, as tar and compressed.</summary>
    public static byte[][] Sysfs { get; } = [Test("sysfs-pd1.txt"), Tar(), Packed(Tar())];

    /// <summary>Lists of words.</summary>
    public static byte[][] Words { get; } = ["0x0801912C, 0x0002D12C\n0004B12C 00064145\n"u8.ToArray(), "# list\n0801912C"u8.ToArray()];

    /// <summary>Texts that quote lists.</summary>
    public static byte[][] Quoted { get; } =
    [
        "> It says obj0=0x0801912C obj1=0x0002D12C\n> and rdo=0x1304B12C, then { 0x0801912C, 0x0004B12C }\n"u8.ToArray(),
        "PDO 0: type 0, 5000 mV,\n3000 mA [E]\nPDO 1: type 3, 3300-11000 mV, 3000 mA\n"u8.ToArray(),
        "PDO1: 2C 91 01 08\nPDO2: 2C D1 02 00\n"u8.ToArray(),
    ];

    /// <summary>Compressed captures of several formats.</summary>
    public static byte[][] Gzip { get; } = [Packed(JsonLines[^1]), Packed(Pcapng[^1]), Packed(Packed(KernelLog[0]))];

    /// <summary>Numbered parts of a log in a folder.</summary>
    public static byte[][] Folder { get; } =
    [
        Bytes(FolderArchive.Pack(
        [
            ("run_1.log", static () => new MemoryStream(KernelLog[0][..(KernelLog[0].Length / 2)])),
            ("run_2.log", static () => new MemoryStream(KernelLog[0][(KernelLog[0].Length / 2)..])),
        ])),
    ];

    /// <summary>What was recognised on the photo of a display.</summary>
    public static byte[][] PhotoOffers { get; } =
        [TypedOfferText.PhotoToCapture("PDO1 5.00V 3.00A\nPDO2 9.O0V 3.00A\n1 15.00V 3.OOA\nPPS 3.30-11.00V 5.00A\n65W", isCompared: false)];

    /// <summary>A capture in a zip archive.</summary>
    public static byte[][] Zip { get; } = [Zipped(JsonLines[0])];

    /// <summary>Labels and product files.</summary>
    public static byte[][] Products { get; } =
    [
        .. Directory.GetFiles(Repository.PathOf("captures"), "product.yaml", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(File.ReadAllBytes),
        Encoding.UTF8.GetBytes(
            """
            product: P
            ratings: {inputs: {mains: 100-240V 1.5A}, outputs: {C1: {modes: [5V 3A, 9V 3A], ranges: [PPS 5-11V 3A], maximum: 27W}}, total: 27W}
            label_corrections: [{line: 1, printed: 2.SA, read_as: 2.5A}]
            ports: {C1: {cable: detachable}}
            battery: {cells: {series: 1, parallel: 2, capacity_mah: 6500, nominal_v: 3.85}}
            captures: [{file: a.csv, port: C1, in_use: [C1], columns: "time=1:ms,hex=2", measurements: {file: m.csv, offset: 1s}}]
            """),
    ];

    /// <summary>Scripts.</summary>
    public static byte[][] Scripts { get; } =
        [.. Directory.GetFiles(Repository.PathOf("captures"), "*.synthesis.yaml", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(File.ReadAllBytes)];

    /// <summary>Descriptions of devices, as YAML and as words.</summary>
    public static byte[][] Sinks { get; } =
    [
        "- {name: a, title: b, fixed: [5V 3A, 9V 2A], pps: 3.3-11V 3A, wish: 25W, minimum: 10W, cable: 3A, edition: R3.0}\n"u8.ToArray(),
        "fixed 5V, 28V; avs 9-28V; variable 4.5-6V; wish 140W; cable EPR; edition R3.2"u8.ToArray(),
    ];

    /// <summary>Label texts: those of the products, and of the label tests with the expected reading behind them.</summary>
    public static byte[][] Labels { get; } =
    [
        Encoding.UTF8.GetBytes(
            "level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n1\t1\t0\t0\t0\t0\t0\t0\t800\t240\t-1\t\n"
            + "5\t1\t1\t1\t1\t1\t20\t30\t90\t12\t96.5\tUSB-C:\n5\t1\t1\t1\t1\t2\t120\t30\t40\t12\t41.2\t5V/3A\n5\t1\t1\t1\t2\t1\t20\t60\t60\t12\t88\t20W\n"),
        .. Directory.GetFiles(Repository.PathOf("tests", "Portwitness.Labels.Tests", "Data"), "*.txt").Order(StringComparer.Ordinal)
            .SelectMany(file => File.ReadAllText(file).Split("\n\n")).Select(Encoding.UTF8.GetBytes).Where(text => text.Length > 0),
    ];

    /// <summary>Samples of one kind.</summary>
    public static byte[][] Samples(SampleKind kind) =>
        [Written(Beginning(JsonLines[0]), stream => new SampleWriter(stream, new SampleShape { SampleRate = 5_000_000, Kind = kind }))];

    private static byte[] Test(string name) => File.ReadAllBytes(Repository.PathOf("tests", "Portwitness.Captures.Tests", "Data", name));

    // The line is long: a few messages and no seconds of silence.
    private static byte[] Beginning(byte[] seed)
    {
        string[] lines = Encoding.UTF8.GetString(seed).Split('\n');
        return Encoding.UTF8.GetBytes(string.Join('\n', lines.Take(1).Concat(lines.Skip(1).Where(line => line.Contains("\"hex\"", StringComparison.Ordinal)).Take(6))));
    }

    private static byte[] Written(byte[] capture, Open open)
    {
        using MemoryStream stream = new();
        using (ICaptureWriter writer = open(stream))
        {
            CaptureReader reader = new(writer);
            reader.Write(capture);
            reader.Complete();
        }

        return stream.ToArray();
    }

    private static byte[] Bytes(Stream stream)
    {
        using MemoryStream copy = new();
        stream.CopyTo(copy);
        return copy.ToArray();
    }

    private static byte[] Zipped(byte[] content)
    {
        using MemoryStream bytes = new();
        using (System.IO.Compression.ZipArchive zip = new(bytes, System.IO.Compression.ZipArchiveMode.Create))
        {
            using Stream entry = zip.CreateEntry("c1.capture.jsonl").Open();
            entry.Write(content);
        }

        return bytes.ToArray();
    }

    private static byte[] Packed(byte[] bytes)
    {
        using MemoryStream stream = new();
        using (GZipStream gzip = new(stream, CompressionLevel.Fastest, leaveOpen: true))
        {
            gzip.Write(bytes);
        }

        return stream.ToArray();
    }

    private static byte[] Tar()
    {
        using MemoryStream stream = new();
        using (TarWriter tar = new(stream, TarEntryFormat.Pax, leaveOpen: true))
        {
            foreach ((string path, string text) in new[]
            {
                ("pd1/source-capabilities/1:fixed_supply/voltage", "5000mV\n"), ("pd1/source-capabilities/1:fixed_supply/maximum_current", "3000mA\n"),
                ("pd1/source-capabilities/2:programmable_supply/maximum_voltage", "11000mV\n"),
            })
            {
                tar.WriteEntry(new PaxTarEntry(TarEntryType.RegularFile, path) { DataStream = new MemoryStream(Encoding.UTF8.GetBytes(text)) });
            }
        }

        return stream.ToArray();
    }
}
