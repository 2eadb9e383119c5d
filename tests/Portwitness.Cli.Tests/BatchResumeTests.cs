using System.Text.Json;
using Portwitness.Cli.Batches;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>Going on with a batch, and leaving out what has not changed.</summary>
public sealed class BatchResumeTests : IDisposable
{
    private const string Product = """
        product: Tarnholt TH-15
        captures:
          - {file: c1.words, port: C1, in_use: [C1]}
        """;

    private readonly TemporaryFolder _folder = new();
    private readonly string _reports;

    public BatchResumeTests()
    {
        foreach ((string name, string words) in new[] { ("a", "0x0801912C"), ("b", "0x0002D12C"), ("c", "0x0801912C") })
        {
            _folder.Write($"bench/{name}/product.yaml", Product);
            _folder.Write($"bench/{name}/c1.words", words);
        }

        _reports = _folder.PathOf("reports");
    }

    public void Dispose() => _folder.Dispose();

    // Whatever a killed process leaves: some lines, half a line, a report without a line, half a report.
    [Theory]
    [InlineData(0, "")]
    [InlineData(1, "")]
    [InlineData(2, "{\"product\":\"/ben")]
    [InlineData(3, "")]
    public async Task Resume_DoesTheRest(int linesLeft, string half)
    {
        await BatchAsync();
        string journal = Path.Combine(_reports, BatchJournal.FileName);
        string[] lines = await File.ReadAllLinesAsync(journal);
        await File.WriteAllTextAsync(journal, string.Concat(lines.Take(linesLeft).Select(line => line + "\n")) + half);
        string leftover = Path.Combine(_reports, ".c.txt.abcdefgh.ijk.part");
        await File.WriteAllTextAsync(leftover, "Tarn");

        CliRun run = await BatchAsync("--resume");

        run.ExitCode.Should().Be(ExitCode.Findings, "what was done before counts, too");
        Count(run, "products").Should().Be(3);
        Count(run, "fails").Should().Be(1);
        run.OutputLines.Where(line => line.StartsWith("not repeated", StringComparison.Ordinal)).Should().HaveCount(linesLeft > 0 ? 1 : 0);
        (await File.ReadAllLinesAsync(journal)).Select(line => JsonDocument.Parse(line).RootElement.GetProperty("report").GetString())
            .Should().Equal("a.txt", "b.txt", "c.txt");
        File.Exists(leftover).Should().BeFalse();
    }

    [Fact]
    public async Task Resume_RepeatsWhatHasChanged()
    {
        await BatchAsync();
        _folder.Write("bench/b/c1.words", "0x0801912C");
        File.Delete(Path.Combine(_reports, "c.txt"));

        CliRun run = await BatchAsync("--resume");

        run.ExitCode.Should().Be(0);
        Count(run, "not repeated").Should().Be(1);
        File.ReadAllText(Path.Combine(_reports, "b.txt")).Should().NotContain("first-object-not-vsafe5v");
        File.Exists(Path.Combine(_reports, "c.txt")).Should().BeTrue();
    }

    [Fact]
    public async Task Resume_WithOtherOptions_RepeatsAll()
    {
        await BatchAsync();

        CliRun run = await BatchAsync("--resume", "--edition", "R3.1");

        run.Output.Should().NotContain("not repeated");
    }

    // A file that was missing is an input, too.
    [Fact]
    public async Task Since_LeavesOutWhatHasTheSameContent()
    {
        File.Delete(_folder.PathOf("bench/c/c1.words"));
        _folder.Write("bench/c/product.yaml", Product + "\n  - {file: c2.words, port: C2, in_use: [C2]}");
        _folder.Write("bench/c/c2.words", "0x0801912C");
        await BatchAsync();
        _folder.Write("bench/c/c1.words", "0x0801912C");
        File.SetLastWriteTimeUtc(_folder.PathOf("bench/a/c1.words"), new DateTime(2030, 1, 1, 0, 0, 0, DateTimeKind.Utc));
        string tuesday = _folder.PathOf("tuesday");

        CliRun run = await CliRun.Async("batch", _folder.PathOf("bench"), "--output", tuesday, "--since", _reports);

        Count(run, "not repeated").Should().Be(2);
        Directory.GetFiles(tuesday).Select(Path.GetFileName).Should().BeEquivalentTo("batch.journal.jsonl", "c.txt");
        run.ExitCode.Should().Be(ExitCode.Findings, "the product that fails still does");
    }

    [Fact]
    public async Task Names_StayWithTheirProducts()
    {
        await BatchAsync();
        _folder.Write("other/b/product.yaml", Product);
        _folder.Write("other/b/c1.words", "0x0801912C");

        await CliRun.Async("batch", _folder.PathOf("other"), _folder.PathOf("bench"), "--output", _reports, "--resume");

        File.ReadAllText(Path.Combine(_reports, "b.txt")).Should().Contain("first-object-not-vsafe5v");
        File.ReadAllText(Path.Combine(_reports, "b-2.txt")).Should().NotContain("first-object-not-vsafe5v");
    }

    [Fact]
    public async Task Summary_CountsByRule()
    {
        CliRun run = await BatchAsync();

        run.OutputLines.Should().ContainSingle(line => line.StartsWith("first-object-not-vsafe5v", StringComparison.Ordinal))
            .Which.Split(' ', StringSplitOptions.RemoveEmptyEntries).Should().Equal("first-object-not-vsafe5v", "1", "1");
    }

    [Fact]
    public async Task FolderInUse_IsNotWrittenTwice()
    {
        using BatchJournal other = BatchJournal.Open(_reports, resume: false);

        CliRun run = await BatchAsync();

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("another batch");
    }

    [Theory]
    [InlineData("--resume needs --output", "--resume")]
    [InlineData("holds no batch.journal.jsonl", "--since", ".")]
    public async Task WithoutJournal_IsAMistake(string expected, params string[] options)
    {
        CliRun run = await CliRun.Async(["batch", _folder.PathOf("bench"), .. options]);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(expected);
    }

    private Task<CliRun> BatchAsync(params string[] options) =>
        CliRun.Async(["batch", _folder.PathOf("bench"), "--output", _reports, .. options]);

    private static int Count(CliRun run, string name) =>
        int.Parse(run.OutputLines.Single(line => line.StartsWith(name + "  ", StringComparison.Ordinal)).Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture);
}
