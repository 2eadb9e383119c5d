using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class OutputFileTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Output_IsWrittenToTheFileAlone()
    {
        string path = _folder.PathOf("report.txt");

        CliRun run = await CliRun.Async("decode", "--words", "0x0801912C", "--output", path, "--quiet");

        run.Should().Be(new CliRun(ExitCode.Clean, "", ""));
        File.ReadAllText(path).Should().StartWith("words\n");
        Directory.GetFileSystemEntries(_folder.Path).Should().Equal(path);
    }

    [Fact]
    public async Task CommandThatFails_LeavesTheOldFileAsItWas()
    {
        string path = _folder.Write("report.txt", "the old report");

        CliRun run = await CliRun.Async("decode", _folder.PathOf("missing"), "--output", path);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        File.ReadAllText(path).Should().Be("the old report");
        Directory.GetFileSystemEntries(_folder.Path).Should().Equal(path);
    }

    [Fact]
    public void NotCommitted_NothingAppears()
    {
        using (AtomicFile file = AtomicFile.Create(_folder.PathOf("report.txt")))
        {
            file.Writer.Write(new string('x', 100_000));
            file.Writer.Flush();
        }

        Directory.GetFileSystemEntries(_folder.Path).Should().BeEmpty();
    }

    [Fact]
    public void LinkToAFile_KeepsPointingToTheNewContent()
    {
        string target = _folder.Write("target.txt", "old");
        string link = _folder.PathOf("link.txt");
        File.CreateSymbolicLink(link, target);

        using (AtomicFile file = AtomicFile.Create(link))
        {
            file.Writer.Write("new");
            file.Commit();
        }

        File.ReadAllText(target).Should().Be("new");
        new FileInfo(link).LinkTarget.Should().Be(target);
    }

    [Theory]
    [InlineData("missing/report.txt", "create it first")]
    [InlineData(".", "is a folder")]
    public async Task PlaceThatCannotBeWritten_IsExplained(string relative, string reason)
    {
        CliRun run = await CliRun.Async("decode", "--words", "0x0801912C", "--output", _folder.PathOf(relative));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(reason);
    }
}
