using System.Text.Json.Nodes;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>An article is held against a product of the demo, as a folder and as an earlier report.</summary>
public sealed class ProofTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("The pack holds 24,000 mAh. Its cable gives up to 67 W, USB-C up to 45 W.", ExitCode.Clean, "Agree: 3; differ: 0")]
    [InlineData("The pack weighs 410 g.", ExitCode.Clean, "without evidence: 1.")]
    [InlineData("USB-C gives up to 60 W.", ExitCode.Findings, "line 1, column 19: 60 W: the record has 45 W, printed (label, line 5)")]
    [InlineData("Der Anschluss USB-C liefert höchstens 45 W, das Kabel bis zu 76 W.", ExitCode.Findings, "76 W: the record has 67 W, printed (label, line 4)")]
    [InlineData("电池容量为24000毫安时，USB-C口最高65W。", ExitCode.Findings, "65W: the record has 45 W, printed (label, line 5)")]
    public async Task Article_IsHeldAgainstTheProduct(string text, int exitCode, string says)
    {
        CliRun run = await CliRun.Async("proof", _folder.Write("article.md", text), Repository.PathOf("captures", "evidence", "typed-tp67"));

        run.ExitCode.Should().Be(exitCode);
        run.Output.Should().Contain(says);
    }

    // The article of the opened reel pack has one number that is wrong: 35 W of a socket that promises 30 W.
    [Fact]
    public async Task ArticleOfTheReelPack_HasOneWrongNumber()
    {
        string folder = Repository.PathOf("captures", "evidence", "reel-tr60");

        CliRun run = await CliRun.Async("proof", Path.Combine(folder, "ARTICLE.md"), folder, "--format", "json");

        run.ExitCode.Should().Be(ExitCode.Findings);
        JsonArray entries = JsonNode.Parse(run.Output)!["entries"]!.AsArray();
        entries.Where(static entry => (string)entry!["outcome"]! != "agrees").Select(static entry => $"{entry!["text"]} {entry["outcome"]}").Should().Equal("35 W differs");
    }

    [Fact]
    public async Task Article_IsHeldAgainstAnEarlierReport()
    {
        string report = _folder.PathOf("report.json");
        await CliRun.Async("check", Repository.PathOf("captures", "evidence", "typed-tp67"), "--format", "json", "--output", report);

        CliRun run = await CliRun.Async("proof", _folder.Write("article.md", "It is 100 mm (4.1 in) long."), report, "--format", "json");

        run.ExitCode.Should().Be(ExitCode.Findings);
        JsonNode proof = JsonNode.Parse(run.Output)!;
        ((string)proof["product"]!, (int)proof["counts"]!["convertedWrongly"]!).Should().Be(("Tarnholt TP-67 carriage pack", 1));
    }

    [Fact]
    public async Task MissingArticle_IsAMistake()
    {
        CliRun run = await CliRun.Async("proof", _folder.PathOf("none.md"), Repository.PathOf("captures", "evidence", "typed-tp67"));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("none.md").And.NotContain("   at ");
    }
}
