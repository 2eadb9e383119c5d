using System.Text.Json;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>A product file of what lies in a folder.</summary>
public sealed class NewCommandTests : IDisposable
{
    private const string Capture = "{\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\"]}\n{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1212C910108DED00200\"}\n";

    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task FolderWithEverything_GetsAProductFileThatIsCheckedAtOnce()
    {
        _folder.Write("p/a-capture.jsonl", Capture);
        _folder.Write("p/c2-alone.words", "0x0801912C 0x0002D0DE");
        _folder.Write("p/notes.txt", "Bought in March, works.");
        _folder.Write("p/label.txt", "USB-C1: 5V⎓3A 9V⎓2.22A (20W Max)\nUSB-C2: 5V⎓3A 9V⎓2.22A (20W Max)\n");
        _folder.Write("p/a-5v3a.csv", "time (s),volts (V),amps (A)\n0,5.0,3\n1,5.0,3\n2,5.0,3\n");
        string photo = _folder.Write("p/front.jpg", "x");
        string folder = Path.GetDirectoryName(photo)!;

        CliRun run = await CliRun.Async("new", folder);

        run.ExitCode.Should().Be(ExitCode.Clean, run.Error);
        run.Error.Should().Contain("product.yaml written: 2 captures, 1 logs, 1 labels");
        string text = await File.ReadAllTextAsync(Path.Combine(folder, "product.yaml"));
        text.Should().Contain("label: {file: label.txt}\n").And.Contain("\ncaptures:\n  - a-capture.jsonl\n")
            .And.Contain("  - {file: c2-alone.words, port: C2, in_use: [C2]}   # by the file's name; correct port and ports in use\n")
            .And.Contain("# loads:\n# - {port: A, at: 5V 3A, file: a-5v3a.csv}").And.Contain("# label: {photo: front.jpg}").And.NotContain("notes.txt");
        CliRun check = await CliRun.Async("check", folder);
        check.Error.Should().BeEmpty();
        check.Output.Should().Contain("HOLDS        C1 gives 9 V 2.22 A").And.Contain("HOLDS        C2 gives 9 V 2.22 A");
    }

    [Fact]
    public async Task ProductFileThatIsThere_IsLeftAsItIs()
    {
        string file = _folder.Write("p/product.yaml", "product: mine\n");

        CliRun run = await CliRun.Async("new", Path.GetDirectoryName(file)!);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("is there already, and is left as it is");
        (await File.ReadAllTextAsync(file)).Should().Be("product: mine\n");
    }

    [Fact]
    public async Task EmptyFolder_GetsExamplesAsComments()
    {
        string folder = Directory.CreateDirectory(Path.Combine(_folder.Path, "th 65: \"new\"")).FullName;

        (await CliRun.Async("new", folder)).ExitCode.Should().Be(ExitCode.Clean);

        string[] lines = await File.ReadAllLinesAsync(Path.Combine(folder, "product.yaml"));
        lines.Where(static line => !line.StartsWith('#')).Should().Equal("product: \"th 65: \\\"new\\\"\"");
    }

    [Fact]
    public async Task AtATerminal_WhatNobodyCanKnowIsAskedFor()
    {
        _folder.Write("p/first.words", "0x0801912C");
        string folder = Path.Combine(_folder.Path, "p");

        CliRun run = await CliRun.WithAnswersAsync(["Tarnholt TH-65", "C2"], "new", folder);

        run.Error.Should().Contain("The product's name (Enter: p): ").And.Contain("Which port is first.words of");
        (await File.ReadAllTextAsync(Path.Combine(folder, "product.yaml"))).Should().Contain("product: \"Tarnholt TH-65\"\n").And.Contain("{file: first.words, port: C2, in_use: [C2]}");
    }

    [Theory]
    [InlineData("product", "A product that portwitness checks")]
    [InlineData("capture", "in_use")]
    public async Task Schemas_ArePrinted(string which, string has)
    {
        CliRun run = await CliRun.Async("new", "--schema", which);

        run.ExitCode.Should().Be(ExitCode.Clean);
        JsonDocument.Parse(run.Output).RootElement.GetRawText().Should().Contain(has);
    }

    public void Dispose() => _folder.Dispose();
}
