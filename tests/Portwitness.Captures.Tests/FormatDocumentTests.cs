using System.Reflection;
using System.Text.Json;
using System.Text.RegularExpressions;
using Json.Schema;
using Portwitness.Tests;

namespace Portwitness.Captures.Tests;

/// <summary>The page, the schema and the reader say the same.</summary>
public partial class FormatDocumentTests
{
    private static readonly string Page = File.ReadAllText(Repository.PathOf("captures", "FORMAT.md"));

    private static readonly JsonSchema Schema = JsonSchema.FromText(
        File.ReadAllText(Repository.PathOf("captures", "capture.schema.json")));

    [Fact]
    public void ExamplesOfThePage_FitTheSchemaAndAreReadWithoutFault()
    {
        string[] examples = Blocks("jsonl");
        examples.Should().HaveCountGreaterThan(1);
        foreach (string example in examples)
        {
            Recording.Of(example).Faults.Should().BeEmpty();
            example.TrimEnd().Split('\n').Should().OnlyContain(line => Fits(line));
        }
    }

    [Fact]
    public void FaultyExamplesOfThePage_GiveTheFaultsBesideThem()
    {
        string[][] lines = [.. Blocks("jsonl-faulty").Single().TrimEnd().Split('\n').Select(line => line.Split("   ", 2))];

        Recording read = Recording.Of(string.Join('\n', lines.Select(line => line[0])));

        read.FaultCodes.Should().Equal(lines.Select(line => line[1].Trim()));
        read.Faults.Select(f => f.Line).Should().Equal(Enumerable.Range(1, lines.Length).Select(line => (long)line));
    }

    [Fact]
    public void WordsOfThePage_AreReadWithoutFault() =>
        Recording.Of(Blocks("words").Single()).Faults.Should().BeEmpty();

    [Fact]
    public void QuotationsOfThePage_AreReadWithoutFault()
    {
        foreach ((string text, int words) in Blocks("quoted").Zip([3, 2]))
        {
            Recording read = Recording.Of(text);
            (read.Format, read.Faults.Count).Should().Be(("quoted", 0));
            read.Messages.Single().Hex.Should().HaveLength(4 + (8 * words));
        }
    }

    [Fact]
    public void TableOfThePage_IsReadWithoutFault()
    {
        Recording read = Recording.Of(Blocks("table").Single());

        read.Faults.Should().BeEmpty();
        read.Messages.Select(m => m.Hex).Should().Equal("A1212C9101082CD10200", "8101");
        read.Signals.Should().ContainSingle();
    }

    [Fact]
    public void DirectoryOfThePage_IsReadWithoutFault()
    {
        Recording read = Recording.Of(Blocks("sysfs").Single());

        read.Faults.Should().BeEmpty();
        read.Messages.Should().ContainSingle();
    }

    [Fact]
    public void Codes_AreThoseOfThePage()
    {
        IEnumerable<string> codes = typeof(FaultCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
            .Select(field => (string)field.GetRawConstantValue()!);

        CodeRow().Matches(Page).Select(match => match.Groups[1].Value).Should().BeEquivalentTo(codes);
    }

    [Fact]
    public void Events_AreThoseOfThePageAndTheSchema()
    {
        CaptureEvents.All.Should().OnlyContain(name => Page.Contains($"`{name}`", StringComparison.Ordinal));
        CaptureEvents.All.Should().OnlyContain(name => Fits($"{{\"t\":1,\"event\":\"{name}\"}}"));
    }

    [Fact]
    public void TestCaptures_FitTheSchema()
    {
        string[] files = Directory.GetFiles(Repository.PathOf("tests", "Portwitness.Captures.Tests", "Data"), "*.capture.jsonl");
        files.Should().NotBeEmpty();
        files.SelectMany(File.ReadAllLines).Should().OnlyContain(line => Fits(line));
    }

    [Theory]
    [InlineData("{\"capture\":2}")]
    [InlineData("{\"capture\":\"1\"}")]
    [InlineData("{\"capture\":1,\"port\":1}")]
    [InlineData("{\"capture\":1,\"in_use\":\"C1\"}")]
    [InlineData("{\"capture\":1,\"started\":\"2026-03-02T09:14:07\"}")]
    [InlineData("{\"capture\":1,\"cable\":{\"current_a\":4}}")]
    [InlineData("{\"capture\":1,\"edition\":\"3\"}")]
    [InlineData("{\"sop\":\"SOP\",\"hex\":\"8100\"}")]
    [InlineData("{\"t\":1}")]
    [InlineData("{\"t\":1,\"hex\":\"8100\"}")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"810\"}")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"81\"}")]
    [InlineData("{\"t\":1,\"sop\":\"sop\",\"hex\":\"8100\"}")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"known\":\"F\"}")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc\":\"12\"}")]
    [InlineData("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\",\"crc_ok\":1}")]
    [InlineData("{\"t\":-1,\"rp\":\"3A\"}")]
    [InlineData("{\"t\":1,\"signal\":\"reset\"}")]
    [InlineData("{\"t\":1,\"vbus_mv\":1000001}")]
    [InlineData("{\"t\":1,\"event\":\"atach\"}")]
    [InlineData("{\"t\":1,\"rp\":3}")]
    [InlineData("[]")]
    public void LineThatDoesNotFitTheSchema_HasAFault(string line)
    {
        Fits(line).Should().BeFalse();
        Recording.Of("{\"capture\":1}\n" + line).Faults.Should().NotBeEmpty();
    }

    private static bool Fits(string line) => Schema.Evaluate(JsonDocument.Parse(line).RootElement).IsValid;

    private static string[] Blocks(string language) =>
        [.. Block().Matches(Page).Where(match => match.Groups[1].Value == language).Select(match => match.Groups[2].Value)];

    [GeneratedRegex("^```([a-z-]+)\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Block();

    [GeneratedRegex("^\\| `([a-z0-9-]+)` \\| [^|]+ \\| [^|]*\\|$", RegexOptions.Multiline)]
    private static partial Regex CodeRow();
}
