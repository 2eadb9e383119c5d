using System.Text.Json;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class BatchTests : IDisposable
{
    private const string Product = """
        product: Tarnholt TH-15
        captures:
          - {file: c1.words, port: C1, in_use: [C1]}
        """;

    private readonly TemporaryFolder _folder = new();

    public BatchTests()
    {
        foreach ((string name, string words) in new[] { ("a-good", "0x0801912C"), ("b-bad", "0x0002D12C"), ("d-good", "0x0801912C") })
        {
            _folder.Write($"bench/{name}/product.yaml", Product);
            _folder.Write($"bench/{name}/c1.words", words);
        }

        Directory.CreateDirectory(_folder.PathOf("bench/no-product"));
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task ReadableProducts_AreCountedAndTheWorstDecides()
    {
        CliRun run = await CliRun.Async("batch", _folder.PathOf("bench"));

        run.ExitCode.Should().Be(ExitCode.Findings);
        run.OutputLines.Should().Contain(line => line.StartsWith("products ") && line.EndsWith(" 3"))
            .And.Contain(line => line.StartsWith("cannot be read") && line.EndsWith(" 0"));
        run.Error.Should().Contain("[1/3]").And.Contain("a-good").And.Contain("[3/3]");
    }

    [Fact]
    public async Task FolderThatIsGivenTwice_CountsOnce()
    {
        CliRun once = await CliRun.Async("batch", _folder.PathOf("bench"));
        CliRun twice = await CliRun.Async("batch", _folder.PathOf("bench"), _folder.PathOf("bench") + "/", _folder.PathOf("bench/../bench"));

        twice.OutputLines.Should().HaveCount(once.OutputLines.Length);
    }

    [Fact]
    public async Task UnreadableProduct_DoesNotStopTheOthers()
    {
        _folder.Write("bench/c-broken/product.yaml", "product: [unclosed");

        CliRun run = await CliRun.Async("batch", _folder.PathOf("bench"), "--format", "json", "--parallel", "3");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        JsonElement[] reports = [.. run.OutputLines.Select(line => JsonDocument.Parse(line).RootElement)];
        reports.Select(report => report.GetProperty("unusable").GetBoolean()).Should().Equal(false, false, true, false);
        run.Error.Should().Contain("c-broken: CANNOT BE READ");
    }

    [Theory]
    [InlineData("text", ".txt")]
    [InlineData("json", ".json")]
    public async Task OutputFolder_HasOneReportAProduct(string format, string extension)
    {
        _folder.Write("other/a-good/product.yaml", Product);
        _folder.Write("other/a-good/c1.words", "0x0801912C");
        string reports = _folder.PathOf("reports/today");

        CliRun run = await CliRun.Async(
            "batch", _folder.PathOf("bench"), _folder.PathOf("other"), "--output", reports, "--format", format);

        run.ExitCode.Should().Be(ExitCode.Findings);
        // What is held against each other of one product is beside them.
        Directory.GetFiles(reports).Select(Path.GetFileName).Where(name => name != "batch.spread.jsonl").Order().Should().Equal(
            "a-good-2" + extension, "a-good" + extension, "b-bad" + extension, "batch.journal.jsonl", "d-good" + extension);
        File.ReadAllText(Path.Combine(reports, "b-bad" + extension)).Should().Contain("first-object-not-vsafe5v");
    }

    [Fact]
    public async Task FolderWithoutProducts_IsAMistake()
    {
        CliRun run = await CliRun.Async("batch", _folder.PathOf("bench/no-product"));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("product.yaml");
    }

    [Theory]
    [InlineData("0")]
    [InlineData("65")]
    [InlineData("many")]
    public async Task ParallelOutOfRange_IsRefused(string count)
    {
        CliRun run = await CliRun.Async("batch", _folder.PathOf("bench"), "--parallel", count);

        run.ExitCode.Should().Be(ExitCode.Unusable);
    }
}
