using System.Text;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Quoted;
using Portwitness.Captures.Tables;
using Portwitness.Captures.Waveforms;
using Portwitness.Labels;
using Portwitness.Negotiation;
using Portwitness.Product;
using Portwitness.Synthesis;

namespace Portwitness.Fuzz;

/// <summary>One way into the program: its good inputs, and what reads them.</summary>
/// <param name="Name">As the command line names it.</param>
/// <param name="Seeds">Good inputs.</param>
/// <param name="Read">Reads damaged ones, and checks what it promises.</param>
internal sealed record FuzzedReader(string Name, byte[][] Seeds, Action<byte[], Random, Checks> Read)
{
    // So many cases to one that is also analysed with all rules.
    private const int AnalysedOneIn = 8;

    /// <summary>All of them. A new format is one line here.</summary>
    public static FuzzedReader[] All { get; } =
    [
        Capture("jsonl", Fuzz.Seeds.JsonLines),
        Capture("pcapng", Fuzz.Seeds.Pcapng),
        Capture("kernel-log", Fuzz.Seeds.KernelLog),
        Capture("sysfs", Fuzz.Seeds.Sysfs),
        Capture("words", Fuzz.Seeds.Words),
        Capture("quoted", Fuzz.Seeds.Quoted),
        Capture("quoted-bytes", Fuzz.Seeds.Quoted, new() { Quoted = QuotedForm.Bytes }),
        Capture("gzip", Fuzz.Seeds.Gzip),
        Capture("zip", Fuzz.Seeds.Zip),
        Capture("folder", Fuzz.Seeds.Folder),
        Capture("offers-photo", Fuzz.Seeds.PhotoOffers),
        Capture("table", Fuzz.Seeds.Table),
        Capture("table-mapped", Fuzz.Seeds.Table, new() { Table = TableMapping.Parse("time=2:ms,sop=4,header=5,hex=6,crc=7", out _) }),
        Capture("vcd", Fuzz.Seeds.Vcd),
        Capture("voltages", Fuzz.Seeds.Samples(SampleKind.Text)),
        Samples("samples-bit", SampleKind.Bit),
        Samples("samples-u8", SampleKind.U8),
        Samples("samples-i16", SampleKind.I16),
        Samples("samples-f32", SampleKind.F32),
        new("measurements", Fuzz.Seeds.Measurements, ReadMeasurements),
        new("label", Fuzz.Seeds.Labels, static (bytes, _, checks) => ReadLabel(Encoding.UTF8.GetString(bytes), checks)),
        new("product", Fuzz.Seeds.Products, static (bytes, _, checks) => ReadProduct(Encoding.UTF8.GetString(bytes), checks)),
        new("synthesis", Fuzz.Seeds.Scripts, static (bytes, _, checks) => ReadScript(Encoding.UTF8.GetString(bytes), checks)),
        new("sink", Fuzz.Seeds.Sinks, static (bytes, _, checks) => ReadSink(Encoding.UTF8.GetString(bytes), checks)),
    ];

    private static FuzzedReader Capture(string name, byte[][] seeds, CaptureReadOptions? options = null) => new(
        name, seeds, (bytes, random, checks) => ReadCapture(bytes, random, checks, options ?? new()));

    private static FuzzedReader Samples(string name, SampleKind kind) => Capture(
        name, Fuzz.Seeds.Samples(kind), new() { Waveform = new() { Samples = kind, SampleRate = 5_000_000 } });

    private static void ReadCapture(byte[] bytes, Random random, Checks checks, CaptureReadOptions options)
    {
        CaptureInput input = new(checks, options);
        Feed(bytes, random, input.Write);
        input.Complete();
        if (random.Next(AnalysedOneIn) == 0)
        {
            CaptureAnalyzer analyzer = new(new CaptureOptions { File = "fuzz", Reading = options });
            analyzer.Write(bytes);
            CaptureAnalysis analysis = analyzer.Complete();
            checks.Expect(analysis.Findings.All(finding => PhraseText.Of(finding.Detail).Length > 0), "a finding without words");
        }
    }

    private static void ReadMeasurements(byte[] bytes, Random random, Checks checks)
    {
        CaptureInput input = new(checks, new() { Measurements = new() { OffsetUs = random.Next(-1_000_000, 1_000_000) } });
        input.Write(Fuzz.Seeds.JsonLines[^1]);
        Feed(bytes, random, input.WriteMeasurements);
        input.Complete();
    }

    private static void ReadLabel(string text, Checks checks)
    {
        if (LabelLimits.Excess(text) is { } excess)
        {
            checks.Expect(excess.Contains("limit", StringComparison.Ordinal), "a text that is refused without a word");
            return;
        }

        Label label = LabelReader.Read(text);
        checks.Expect(label.Text == text, "another text");
        checks.Expect(label.Unread.All(unread => text.Contains(unread.Text, StringComparison.Ordinal)), "unread words that are not printed");
        checks.Expect(PrintedCheck.Of(label, out _).All(finding => PhraseText.Of(finding.Detail).Length > 0), "a finding without words");
    }

    private static void ReadProduct(string text, Checks checks)
    {
        foreach (CaptureFault fault in ProductFileReader.Read(text).Faults)
        {
            checks.Expect(fault.Line > 0 && fault.Detail.Length > 10, $"a fault without a place: {fault}");
        }

        ProductCheck check = ProductCheck.ForProduct("product.yaml", text, null);
        foreach (string file in check.Files.Take(2))
        {
            check.Open(file).Write(Fuzz.Seeds.JsonLines[0]);
            check.Close();
        }

        checks.Expect(check.Complete().Findings.All(finding => PhraseText.Of(finding.Detail).Length > 0), "a finding without words");
    }

    private static void ReadScript(string text, Checks checks)
    {
        SynthesisScript script = ScriptReader.Read(text);
        checks.Expect(script.Faults.All(fault => fault.Line > 0 && fault.Detail.Length > 5), "a fault without a place");
    }

    private static void ReadSink(string text, Checks checks)
    {
        foreach (SinkList list in new[] { SinkDescriptionReader.OfYaml(text), SinkDescriptionReader.OfWords(text) })
        {
            checks.Expect(list.Faults.Length + list.Sinks.Length > 0, "neither a device nor a fault");
            checks.Expect(list.Faults.All(fault => fault.Line > 0 && fault.Detail.Length > 10), "a fault without a place");
        }
    }

    // In one piece, byte by byte, or in pieces of any size.
    private static void Feed(byte[] bytes, Random random, Piece write)
    {
        int most = random.Next(4) switch { 0 => 1, 1 => 97, 2 => 4096, _ => bytes.Length + 1 };
        for (int at = 0; at < bytes.Length;)
        {
            int length = Math.Min(bytes.Length - at, random.Next(1, most + 1));
            write(bytes.AsSpan(at, length));
            at += length;
        }
    }

    private delegate void Piece(ReadOnlySpan<byte> bytes);
}
