using System.Text.Json.Nodes;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>plan and errata, with a label alone, an opened demo product, an earlier report, and what cannot be used.</summary>
public sealed class PlanTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task LabelAlone_IsPlanned()
    {
        CliRun run = await CliRun.Async("plan", _folder.Write("product.yaml", "product: Tarnholt TH-30\nlabel: \"USB-C: 5V 3A 9V 3A (27W Max)\"\n"));

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().StartWith("Before Tarnholt TH-30 is opened\n4 steps, 1 of them done; about 1 h 30 min on the bench, 1 h 25 min of them left.")
            .And.Contain("[ ]   2  Plug into C alone").And.Contain("This is a pre-check");
    }

    [Fact]
    public async Task OpenedReelPack_HasWhatIsTooLate()
    {
        CliRun run = await CliRun.Async("plan", Repository.PathOf("captures", "evidence", "reel-tr60"), "--format", "json");

        JsonNode plan = JsonNode.Parse(run.Output)!;
        plan["steps"]!.AsArray().Where(static step => (string)step!["state"]! == "too late").Select(static step => (string)step!["kind"]!).Should().Equal("sustain");
        plan["steps"]!.AsArray().Count(static step => (string)step!["state"]! == "done").Should().Be(9);
        ((string)plan["opened"]!).Should().Be("2026-11-20");
    }

    [Fact]
    public async Task Markdown_IsWritten() =>
        (await CliRun.Async("plan", Repository.PathOf("captures", "dishonest-th100"), "--format", "markdown")).Output.Should().Contain("- [x] 1. Photograph every side").And.Contain("## Cautions");

    [Theory]
    [InlineData("")]
    [InlineData("product: x\n")]
    [InlineData("captures: [{file: ../x}]\n")]
    public async Task WhatCannotBePlanned_IsAMistake(string text)
    {
        CliRun run = await CliRun.Async("plan", _folder.Write("product.yaml", text));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("nothing of it could be judged").And.NotContain("   at ");
    }

    [Fact]
    public async Task Errata_TellWhatChangedAndWhy()
    {
        string folder = Repository.PathOf("captures", "dishonest-th100");
        string report = _folder.PathOf("old.json");
        foreach (string file in Directory.GetFiles(folder))
        {
            File.Copy(file, _folder.PathOf(Path.GetFileName(file)));
        }

        File.WriteAllLines(_folder.PathOf("product.yaml"), File.ReadLines(Path.Combine(folder, "product.yaml")).Where(static line => !line.Contains("c2.capture", StringComparison.Ordinal)));
        await CliRun.Async("check", _folder.PathOf("product.yaml"), "--format", "json", "--output", report);

        CliRun run = await CliRun.Async("errata", report, folder);
        CliRun same = await CliRun.Async("errata", report, report);

        run.ExitCode.Should().Be(ExitCode.Findings);
        run.Output.Should().Contain("Line 3: C2 gives up to 30 W was CANNOT TELL, is FAILS.").And.Contain("because: c2.capture.jsonl is new; the product file was changed");
        (same.ExitCode, same.Output).Should().Be((ExitCode.Clean, "Errata: Tarnholt TH-100 desk charger\nThe verdict stays FAILS. No printed statement changes; 12 stay as they were.\n"));
    }
}
