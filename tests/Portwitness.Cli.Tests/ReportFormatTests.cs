using System.Text.Json.Nodes;
using System.Xml;
using Json.Schema;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>Reports of the demo products against the published schemas of tests/Portwitness.Reports.Tests/Schemas, and word for word.</summary>
public sealed class ReportFormatTests : IDisposable
{
    private static readonly string Schemas = Repository.PathOf("tests", "Portwitness.Reports.Tests", "Schemas");

    // The schema is of draft 4, of which it uses nothing but "id" (Schemas/README.md).
    private static readonly JsonSchema Sarif = JsonSchema.FromText(
        File.ReadAllText(Path.Combine(Schemas, "sarif-2.1.0-rtm.5.json")).Replace("http://json-schema.org/draft-04/schema#", "http://json-schema.org/draft-07/schema#", StringComparison.Ordinal)
            .Replace("\"id\": \"https:", "\"$id\": \"https:", StringComparison.Ordinal));

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("clean-th65", 0)]
    [InlineData("dishonest-th100", 1)]
    [InlineData("broken-tp20", 1)]
    [InlineData("shared-tb65", 1)]
    [InlineData("weak-tp10", 1)]
    public async Task DemoProduct_IsValidInEveryFormat(string product, int failures)
    {
        string folder = Repository.PathOf("captures", product);

        CliRun sarif = await CliRun.Async("check", folder, "--format", "sarif");
        CliRun junit = await CliRun.Async("check", folder, "--format", "junit");

        IsSarif(sarif.Output).Should().BeTrue();
        XmlDocument suite = Junit(junit.Output);
        suite.SelectNodes("//failure")!.Count.Should().Be(failures);
        suite.DocumentElement!.FirstChild!.Attributes!["failures"]!.Value.Should().Be($"{failures}");
    }

    [Theory]
    [InlineData("markdown", "shared-tb65.md")]
    [InlineData("csv-findings", "shared-tb65.findings.csv")]
    [InlineData("csv-offers", "shared-tb65.offers.csv")]
    [InlineData("junit", "shared-tb65.junit.xml")]
    public async Task DemoProduct_IsReportedWordForWord(string format, string golden)
    {
        CliRun run = await CliRun.Async("check", Repository.PathOf("captures", "shared-tb65"), "--format", format);

        Golden.Check(run.Output.Replace(Repository.PathOf("captures"), "captures", StringComparison.Ordinal), golden);
    }

    // What was found inside the box is in every format that has parts, and what was only inferred is marked.
    [Theory]
    [InlineData("text")]
    [InlineData("markdown")]
    [InlineData("html")]
    public async Task TeardownAndClaims_AreInEveryFormat(string format)
    {
        CliRun run = await CliRun.Async("check", Repository.PathOf("captures", "evidence", "reel-tr60"), "--format", format);

        run.Output.Should().ContainAll(
            "TN4820", "only inferred (?)", "not accounted for", "absent", "fills a cabin handset three times", "Passing through", "A goes on", "its mark was seen",
            "Opened on 2026-11-20.", "Cut one lead of the pack at a time");
    }

    [Fact]
    public async Task TeardownAndClaims_AreInTheJson()
    {
        JsonNode report = JsonNode.Parse((await CliRun.Async("check", Repository.PathOf("captures", "evidence", "reel-tr60"), "--format", "json")).Output)!;

        report["teardown"]!.AsArray().Select(static entry => (string?)entry!["ref"]).Should().HaveCount(15).And.Contain("D2");
        report["teardown"]!.AsArray().Single(static entry => (string?)entry!["ref"] == "D2")!["identified"]!.GetValue<string>().Should().Be("inferred");
        report["teardownChecks"]!.AsArray().Select(static check => (string?)check!["state"]).Should().Equal("found", "absent", "inferred", "found", "not accounted for");
        report["claims"]!.AsArray().Select(static claim => (string?)claim!["verdict"]).Should().Equal("fails", "cannot_tell", "holds", "holds");
        report["passThrough"]![0]!["intoPackMw"]!.GetValue<string>().Should().Be("15908");
        report["travel"]!["asOf"]!.GetValue<string>().Should().Be("2026-12-01");
        report["state"]!.GetValue<string>().Should().Be("opened");
        report["handling"]!.AsArray().Should().HaveCount(3);
    }

    [Fact]
    public async Task Sarif_HasAResultForEachFinding_AndItsRule()
    {
        string folder = Repository.PathOf("captures", "shared-tb65");
        JsonNode run = JsonNode.Parse((await CliRun.Async("check", folder, "--format", "sarif")).Output)!["runs"]![0]!;
        JsonArray findings = JsonNode.Parse((await CliRun.Async("check", folder, "--format", "json")).Output)!["findings"]!.AsArray();

        JsonArray results = run["results"]!.AsArray();
        results.Select(result => (string)result!["ruleId"]!).Should().BeEquivalentTo(findings.Select(finding => (string)finding!["rule"]!));
        results.Should().OnlyContain(result => (string)run["tool"]!["driver"]!["rules"]![(int)result!["ruleIndex"]!]!["id"]! == (string)result["ruleId"]!);
        results.Count(result => (string)result!["level"]! == "error").Should().Be(4, "one violation and three mismatches");
        JsonNode capture = run["artifacts"]!.AsArray().Single(file => ((string)file!["location"]!["uri"]!).EndsWith("captures/shared-tb65/c1-first.capture.jsonl", StringComparison.Ordinal))!;
        ((string)capture["hashes"]!["sha-256"]!).Should().Be(Convert.ToHexStringLower(
            System.Security.Cryptography.SHA256.HashData(File.ReadAllBytes(Path.Combine(folder, "c1-first.capture.jsonl")))));
    }

    // Nothing that a label or a file name says may become mark-up, a formula, or an end of a row.
    [Fact]
    public async Task HostileWords_StayWords()
    {
        const string Hostile = "=1+1|`<b>\u001b[2J,\"x\" & ]]> -- \u202e";
        string capture = _folder.Write("a|b=.words", "0x0801912C 0x0002D12C");
        string product = _folder.Write("p/product.yaml", $"product: {System.Text.Json.JsonSerializer.Serialize(Hostile)}\nlabel: \"<b>|\"\ncaptures: [{{file: x.words, port: \"=C|<\", in_use: [\"=C|<\"]}}]\n");
        File.Copy(capture, _folder.PathOf("p/x.words"));

        CliRun sarif = await CliRun.Async("check", product, "--format", "sarif");
        CliRun junit = await CliRun.Async("check", product, "--format", "junit");
        CliRun csv = await CliRun.Async("check", product, "--format", "csv-offers");
        CliRun markdown = await CliRun.Async("check", product, "--format", "markdown");

        IsSarif(sarif.Output).Should().BeTrue();
        Junit(junit.Output).SelectSingleNode("//testcase/@name")!.Value.Should().Contain("<b>").And.Contain("\\u001b");
        csv.Output.Split("\r\n")[1].Should().Contain("\"'=1+1|`<b>\\u001b[2J,\"\"x\"\"").And.Contain("\"'=C|<\"");
        markdown.Output.Should().NotContain("<b>").And.NotContain("\u001b");
        markdown.OutputLines[0].Should().StartWith(@"# =1+1\|\`&lt;b&gt;");
    }

    [Fact]
    public async Task UnusableInput_IsAnErrorOfTheTestReport_AndOfTheTool()
    {
        string product = _folder.Write("p/product.yaml", "product: x\ncaptures: [{file: gone.words, port: C}]\n");

        CliRun junit = await CliRun.Async("check", product, "--format", "junit");
        CliRun sarif = await CliRun.Async("check", product, "--format", "sarif");

        junit.ExitCode.Should().Be(ExitCode.Unusable);
        Junit(junit.Output).SelectNodes("//error")!.Count.Should().Be(1);
        IsSarif(sarif.Output).Should().BeTrue();
        ((bool)JsonNode.Parse(sarif.Output)!["runs"]![0]!["invocations"]![0]!["executionSuccessful"]!).Should().BeFalse();
    }

    [Fact]
    public async Task Batch_WritesOneFileForAllAndOneForEach()
    {
        string output = _folder.PathOf("out");

        CliRun run = await CliRun.Async("batch", Repository.PathOf("captures"), "--output", output, "--format", "html,junit,sarif,csv-findings,csv-offers");
        CliRun again = await CliRun.Async("batch", Repository.PathOf("captures"), "--output", output, "--format", "html,junit,sarif,csv-findings,csv-offers", "--resume");

        run.ExitCode.Should().Be(ExitCode.Findings);
        again.OutputLines.Should().Contain(line => line.StartsWith("not repeated") && line.EndsWith('5'));
        Junit(File.ReadAllText(Path.Combine(output, "batch.junit.xml"))).SelectNodes("//testcase")!.Count.Should().Be(5);
        IsSarif(File.ReadAllText(Path.Combine(output, "batch.sarif"))).Should().BeTrue();
        File.ReadLines(Path.Combine(output, "batch.offers.csv")).Should().HaveCountGreaterThan(20);
        File.ReadAllText(Path.Combine(output, "index.html")).Should().Contain("href=\"shared-tb65.html\"");
        Directory.GetFiles(output, "*.html").Should().HaveCount(6);
    }

    [Fact]
    public async Task Batch_SinceAnotherFolder_LinksAndCountsWhatIsThere()
    {
        string first = _folder.PathOf("monday");
        string second = _folder.PathOf("tuesday");
        await CliRun.Async("batch", Repository.PathOf("captures"), "--output", first, "--format", "html,junit");

        CliRun run = await CliRun.Async("batch", Repository.PathOf("captures"), "--output", second, "--format", "html,junit", "--since", first);

        run.Error.Should().NotContain("leave it out");
        Junit(File.ReadAllText(Path.Combine(second, "batch.junit.xml"))).SelectNodes("//testcase")!.Count.Should().Be(5);
        File.ReadAllText(Path.Combine(second, "index.html")).Should().Contain("href=\"../monday/shared-tb65.html\"");
    }

    [Fact]
    public async Task Batch_TakesCapturesAgainstOneLabel()
    {
        _folder.Write("caps/a.words", "0x0801912C 0x0002D12C");
        _folder.Write("caps/b.words", "0x0801912C");
        _folder.Write("caps/.hidden", "no capture");

        CliRun run = await CliRun.Async("batch", _folder.PathOf("caps"), "--label", "USB-C: 5V⎓3A 9V⎓3A", "--format", "json");

        run.OutputLines.Should().HaveCount(2);
        run.OutputLines.Select(line => (string)JsonNode.Parse(line)!["verdict"]!).Should().Equal("holds", "fails");
        run.OutputLines[1].Should().Contain("printed-rating-not-advertised");
        run.OutputLines[0].Should().NotContain("printed-rating-not-advertised");
    }

    [Theory]
    [InlineData("check", "--format", "pdf")]
    [InlineData("batch", "--format", "html,pdf")]
    [InlineData("batch", "--format", "html")]
    [InlineData("decode", "--format", "html")]
    public async Task FormatThatCannotBe_IsAMistake(string command, params string[] options) =>
        (await CliRun.Async([command, Repository.PathOf("captures"), .. options])).ExitCode.Should().Be(ExitCode.Unusable);

    private static bool IsSarif(string text)
    {
        EvaluationResults results = Sarif.Evaluate(System.Text.Json.JsonDocument.Parse(text).RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        return results.IsValid ? true : throw new InvalidOperationException(string.Join("\n", results.Details!.Where(detail => detail.Errors is not null)
            .SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"))));
    }

    private static XmlDocument Junit(string text)
    {
        XmlDocument document = new();
        document.Schemas.Add(null, Path.Combine(Schemas, "jenkins-junit.xsd"));
        document.LoadXml(text);
        document.Validate((_, problem) => throw problem.Exception);
        return document;
    }
}
