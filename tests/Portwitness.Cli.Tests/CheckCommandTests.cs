using System.Text.Json;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class CheckCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("clean-th65", ExitCode.Clean, "HOLDS")]
    [InlineData("dishonest-th100", ExitCode.Findings, "FAILS")]
    [InlineData("broken-tp20", ExitCode.Findings, "FAILS")]
    [InlineData("shared-tb65", ExitCode.Findings, "FAILS")]
    [InlineData("weak-tp10", ExitCode.Findings, "FAILS")]
    [InlineData("evidence/typed-tp67", ExitCode.Clean, "HOLDS")]
    [InlineData("evidence/soak-tl65", ExitCode.Clean, "HOLDS")]
    [InlineData("evidence/soak-tf65", ExitCode.Findings, "FAILS")]
    [InlineData("evidence/reel-tr60", ExitCode.Findings, "FAILS")]
    public async Task DemoProduct_IsReportedWordForWord(string product, int exitCode, string verdict)
    {
        string folder = Repository.PathOf("captures", product);

        CliRun run = await CliRun.Async("check", folder);

        run.ExitCode.Should().Be(exitCode);
        run.OutputLines[1].Should().Be($"Verdict: {verdict}");
        Golden.CheckFile(
            run.Output, Path.Combine(folder, "expected-report.txt"), Repository.PathOf("tests", "Portwitness.Cli.Tests"));
    }

    [Fact]
    public async Task ProductFileItself_IsTheSameProduct()
    {
        string folder = Repository.PathOf("captures", "clean-th65");

        CliRun byFile = await CliRun.Async("check", Path.Combine(folder, "product.yaml"));

        byFile.Should().Be(await CliRun.Async("check", folder));
    }

    [Fact]
    public async Task CaptureAgainstALabel_IsCompared()
    {
        string capture = _folder.Write("c1.words", "0x0801912C 0x0002D12C");
        string label = _folder.Write("label.txt", "USB-C1: 5V⎓3A 9V⎓3A 12V⎓3A");

        CliRun byFile = await CliRun.Async("check", capture, "--label-file", label, "--format", "json");
        CliRun byAt = await CliRun.Async("check", capture, "--label", "@" + label, "--format", "json");
        CliRun byText = await CliRun.Async("check", capture, "--label", "USB-C1: 5V⎓3A 9V⎓3A 12V⎓3A", "--format", "json");

        byFile.Should().Be(byText).And.Be(byAt);
        JsonElement report = JsonDocument.Parse(byFile.Output).RootElement;
        report.GetProperty("statements").EnumerateArray().Should().NotBeEmpty();
        report.GetProperty("ports")[0].GetProperty("arrangements")[0].GetProperty("offered").GetProperty("objects")
            .GetArrayLength().Should().Be(2);
    }

    [Fact]
    public async Task CaptureOnStandardInputWithoutALabel_IsCheckedAgainstTheStandard()
    {
        CliRun run = await CliRun.WithInputAsync("0x0002D12C", "check", "-");

        run.ExitCode.Should().Be(ExitCode.Findings);
        run.Output.Should().Contain("first-object-not-vsafe5v");
    }

    [Fact]
    public async Task LabelBesideAProduct_IsRefused()
    {
        CliRun run = await CliRun.Async("check", Repository.PathOf("captures", "clean-th65"), "--label", "5V 3A");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("a label of its own");
    }

    [Fact]
    public async Task FolderWithoutAProductFile_IsExplained()
    {
        CliRun run = await CliRun.Async("check", _folder.Path);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("product.yaml");
    }

    [Fact]
    public async Task LinkOutOfTheFolder_IsNotFollowed()
    {
        _folder.Write("secret.words", "0x0801912C");
        string product = _folder.Write("product/product.yaml", """
            product: Tarnholt TH-15
            captures:
              - {file: c1.words, port: C1, in_use: [C1]}
            """);
        File.CreateSymbolicLink(_folder.PathOf("product/c1.words"), _folder.PathOf("secret.words"));

        CliRun run = await CliRun.Async("check", product);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("c1.words").And.Contain("a link leads out of the product's folder");
    }

    [Fact]
    public async Task ProductFileThatIsNotUtf8_IsRefusedWithThePlace()
    {
        string path = _folder.PathOf("product.yaml");
        await File.WriteAllBytesAsync(path, [(byte)'p', 0xFF]);

        CliRun run = await CliRun.Async("check", path);

        run.Should().Be(new CliRun(
            ExitCode.Unusable, "", $"portwitness: {path}: byte 2 is not UTF-8; save the file as UTF-8.\n"));
    }
}
