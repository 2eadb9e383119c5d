using System.Text.Json.Nodes;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class CompareTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("clean-th65")]
    [InlineData("dishonest-th100")]
    [InlineData("broken-tp20")]
    [InlineData("shared-tb65")]
    [InlineData("weak-tp10")]
    public async Task DemoProduct_IsTheSameAsItself_AndAsItsReport(string product)
    {
        string folder = Repository.PathOf("captures", product);
        string report = _folder.PathOf("report.json");
        await CliRun.Async("check", folder, "--format", "json", "--output", report);

        (await CliRun.Async("compare", folder, folder)).ExitCode.Should().Be(ExitCode.Clean);
        (await CliRun.Async("compare", report, folder)).OutputLines.Should().Contain("Nothing differs");
    }

    [Fact]
    public async Task TwoCaptures_AreComparedWordForWord()
    {
        string one = _folder.Write("a.words", "0x0801912C 0x0002D12C 0x0004B12C");
        string other = _folder.Write("b.words", "0x0801912C 0x0002D0C8");

        CliRun text = await CliRun.Async("compare", one, other, "--label", "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A");
        CliRun json = await CliRun.Async("compare", one, other, "--label", "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A", "--format", "json");

        text.ExitCode.Should().Be(ExitCode.Findings);
        Golden.Check(text.Output.Replace(_folder.Path + "/", "", StringComparison.Ordinal), "compare-words.txt");
        JsonNode.Parse(json.Output)!["differences"]!.AsArray().Should().Contain(difference => (string)difference!["about"]! == "fixed 15 V" && (string)difference["change"]! == "gone");
    }

    [Theory]
    [InlineData("{\"verdict\":1,\"findings\":{}}")]
    [InlineData("{\"verdict\":\"holds\",\"findings\":7}")]
    [InlineData("[]")]
    [InlineData("{")]
    public async Task WhatIsNoReport_IsAMistake(string text)
    {
        string file = _folder.Write("x.json", text);

        CliRun run = await CliRun.Async("compare", file, file);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("x.json").And.NotContain("   at ");
    }

    [Fact]
    public async Task Batch_HoldsSamplesAgainstEachOther()
    {
        for (int sample = 1; sample <= 6; sample++)
        {
            _folder.Write($"bench/s{sample}/c.words", $"0x0801912C {sample switch { 4 => "0x0002D0C8", 6 => "0x0002D0E1", _ => "0x0002D12C" }}");
            _folder.Write($"bench/s{sample}/product.yaml", $"product: Tarnholt TH-27\nsample: {sample}\nfirmware: 1.{(sample == 6 ? 1 : 0)}\nlabel: \"USB-C: 5V⎓3A 9V⎓3A\"\ncaptures: [{{file: c.words, port: C, in_use: [C]}}]\n");
        }

        CliRun run = await CliRun.Async("batch", _folder.PathOf("bench"), "--output", _folder.PathOf("out"), "--format", "json");
        CliRun resumed = await CliRun.Async("batch", _folder.PathOf("bench"), "--output", _folder.PathOf("out"), "--format", "json", "--resume");
        CliRun without = await CliRun.Async("batch", _folder.PathOf("bench"));

        run.Output.Should().Contain("Tarnholt TH-27, firmware 1.0: 5 samples").And.Contain("1: 4")
            .And.Contain("Tarnholt TH-27: firmware 1.0 (5 samples), 1.1 (1 sample)").And.MatchRegex("offer +C +fixed 9 V +1.1 +2.25 A +1");
        resumed.Output.Should().Contain("Tarnholt TH-27, firmware 1.0: 5 samples");
        without.Output.Should().Contain("1 product has several samples");
        JsonNode spread = JsonNode.Parse(File.ReadAllText(_folder.PathOf("out/batch.spread.jsonl")))!;
        spread["differing"]!.AsArray().Should().Contain(fact => (string)fact!["about"]! == "fixed 9 V");
        JsonNode versions = JsonNode.Parse(File.ReadAllText(_folder.PathOf("out/batch.firmware.jsonl")))!;
        versions["differing"]!.AsArray().Should().Contain(fact => (string)fact!["about"]! == "fixed 9 V");
    }

    // A lot of 25 at AQL 2.5: code letter C, 5 units, accepted with none failing (MIL-STD-105E as it is restated; under-load, 7.2).
    [Theory]
    [InlineData("2.5", 6, 6, "decision  accepted", "6 of 6|none of 6 fails: of a lot that they were drawn from at random at most 39.4 % fail")]
    [InlineData("2.5", 6, 3, "decision  rejected", "failing   s4, s5")]
    [InlineData("2.50", 4, 4, "decision  cannot tell. Draw and check 1 more unit.", "4 units of 5")]
    public async Task Batch_DecidesAboutALot(string limit, int samples, int good, string decision, string words)
    {
        for (int sample = 1; sample <= samples; sample++)
        {
            _folder.Write($"lot/s{sample}/c.words", $"0x0801912C {(sample > good ? "0x0002D0C8" : "0x0002D12C")}");
            _folder.Write($"lot/s{sample}/product.yaml", $"product: Tarnholt TH-27\nsample: s{sample}\nlabel: \"USB-C: 5V⎓3A 9V⎓3A\"\ncaptures: [{{file: c.words, port: C, in_use: [C]}}]\n");
        }

        CliRun run = await CliRun.Async(
            "batch", _folder.PathOf("lot"), "--output", _folder.PathOf("lots"), "--format", "json", "--lot", "25", "--aql", limit);

        run.Output.Should().Contain(decision).And.ContainAny(words.Split('|'));
        JsonNode lot = JsonNode.Parse(File.ReadAllText(_folder.PathOf("lots/batch.lot.jsonl")))!;
        ((string)lot["codeLetter"]!, (int)lot["units"]!, (string)lot["product"]!).Should().Be(("C", 5, "Tarnholt TH-27"));
    }

    [Theory]
    [InlineData("--lot and --aql belong together", "--lot", "25")]
    [InlineData("--lot takes 2 to 35000 units", "--lot", "1", "--aql", "1.0")]
    [InlineData("--aql takes 0.65, 1.0, 1.5, 2.5, 4.0, 6.5", "--lot", "25", "--aql", "3")]
    public async Task LotThatNoTableHas_IsRefused(string message, params string[] options)
    {
        CliRun run = await CliRun.Async(["batch", _folder.PathOf("bench"), .. options]);

        (run.ExitCode, run.Error).Should().Match<(int Code, string Error)>(result => result.Code == 2 && result.Error.Contains(message));
    }
}
