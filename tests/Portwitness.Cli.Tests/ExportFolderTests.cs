using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>Folders that an instrument exported one capture into.</summary>
public sealed class ExportFolderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string[] _lines = File.ReadAllLines(Repository.PathOf("captures", "clean-th65", "c1.capture.jsonl"));

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("decode")]
    [InlineData("check")]
    public async Task OnlyCaptureOfAFolder_IsRead(string command)
    {
        _folder.Write("export/c1.jsonl", string.Join('\n', _lines));
        _folder.Write("export/photo.jpg", "no export");
        _folder.Write("export/settings.json", "{}");

        CliRun run = await CliRun.Async(command, _folder.PathOf("export"));

        run.ExitCode.Should().Be(ExitCode.Clean, run.Error);
        System.Text.RegularExpressions.Regex.Replace(run.Output, @"\s+", " ").Should().Contain("Of the folder was read: c1.jsonl; left out: settings.json.");
    }

    [Fact]
    public async Task FolderOfAProduct_IsACapture()
    {
        _folder.Write("p/export/c1.jsonl", string.Join('\n', _lines));
        string product = _folder.Write("p/product.yaml", "product: x\ncaptures: [export/]\n");

        CliRun run = await CliRun.Async("check", product);

        run.ExitCode.Should().Be(ExitCode.Clean, run.Error);
        run.Output.Should().Contain("export/");
    }

    [Fact]
    public async Task FolderOfSeveralCaptures_SaysWhatToDo()
    {
        _folder.Write("bench/c1.jsonl", string.Join('\n', _lines));
        _folder.Write("bench/c2.jsonl", string.Join('\n', _lines));

        CliRun run = await CliRun.Async("check", _folder.PathOf("bench"));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("c1.jsonl, c2.jsonl").And.Contain("portwitness new FOLDER");
    }

    // What a link leads to may be anybody's.
    [Fact]
    public async Task LinksInside_AreNotFollowed()
    {
        string secret = _folder.Write("secret.jsonl", string.Join('\n', _lines));
        _folder.Write("export/notes.txt", "x");
        File.CreateSymbolicLink(_folder.PathOf("export/c1.jsonl"), secret);

        CliRun run = await CliRun.Async("decode", _folder.PathOf("export"));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("notes.txt").And.NotContain("c1.jsonl");
    }
}
