using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>watch: a file that grows, and what takes its place.</summary>
public sealed class WatchCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string[] _lines = File.ReadAllLines(Repository.PathOf("captures", "broken-tp20", "c1.capture.jsonl"));

    private string Capture => _folder.PathOf("c1.capture.jsonl");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task WatchedFile_IsFollowedToItsEnd()
    {
        await File.WriteAllTextAsync(Capture, _lines[0] + "\n");
        Task<CliRun> watching = CliRun.Async("watch", Capture, "--idle", "3");
        foreach (string line in _lines.Skip(1))
        {
            await Task.Delay(20);
            await File.AppendAllTextAsync(Capture, line + "\n");
        }

        CliRun run = await watching;

        run.ExitCode.Should().Be(ExitCode.Findings, run.Error);
        run.Output.Should().Contain("so far: violation voltage-offered-twice (fails)").And.Contain("Findings: 5 violations");
    }

    // Rotated by a new name and a new file, and by a file that is renamed over it: the name is followed.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task FileThatIsReplaced_IsTheNextCapture(bool isRotated)
    {
        int half = _lines.Length / 2;
        await File.WriteAllLinesAsync(Capture, _lines.Take(half));
        Task<CliRun> watching = CliRun.Async("watch", Capture, "--idle", "4");
        await Task.Delay(1000);
        await File.AppendAllLinesAsync(Capture, _lines.Skip(half));
        if (isRotated)
        {
            File.Move(Capture, Capture + ".1");
            await Task.Delay(500);
            await File.WriteAllLinesAsync(Capture, _lines.Take(1));
            await Task.Delay(500);
            await File.AppendAllLinesAsync(Capture, _lines.Skip(1));
        }
        else
        {
            await File.WriteAllLinesAsync(Capture + ".new", _lines);
            File.Move(Capture + ".new", Capture, overwrite: true);
        }

        CliRun run = await watching;

        run.Error.Should().Be($"portwitness: {Capture}: was replaced; what is there now is watched as a new capture.\n");
        run.ExitCode.Should().Be(ExitCode.Findings);
        run.OutputLines.Where(static line => line.StartsWith("Findings: 5 violations", StringComparison.Ordinal)).Should().HaveCount(2, "both are judged whole");
    }

    [Fact]
    public async Task FileThatIsCutShort_IsTheNextCapture()
    {
        await File.WriteAllLinesAsync(Capture, _lines);
        Task<CliRun> watching = CliRun.Async("watch", Capture, "--idle", "4");
        await Task.Delay(1500);
        await File.WriteAllTextAsync(Capture, "");
        await Task.Delay(500);
        await File.AppendAllLinesAsync(Capture, _lines);

        CliRun run = await watching;

        run.Error.Should().Be($"portwitness: {Capture}: was cut short; what is there now is watched as a new capture.\n");
        run.OutputLines.Where(static line => line.StartsWith("Findings: 5 violations", StringComparison.Ordinal)).Should().HaveCount(2);
    }

    [Fact]
    public async Task FileThatIsTakenAway_EndsIt()
    {
        await File.WriteAllLinesAsync(Capture, _lines);
        Task<CliRun> watching = CliRun.Async("watch", Capture);
        await Task.Delay(1500);
        File.Delete(Capture);

        CliRun run = await watching.WaitAsync(TimeSpan.FromSeconds(60));

        run.Error.Should().BeEmpty();
        run.Output.Should().Contain("Findings: 5 violations");
    }

    // A recorder that writes into a pipe: opening it waits for the writer, and is given up when nobody comes.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Pipe_IsReadToItsEndOrGivenUp(bool isWritten)
    {
        string pipe = _folder.PathOf("recorder.pipe");
        using (System.Diagnostics.Process make = System.Diagnostics.Process.Start("mkfifo", pipe))
        {
            await make.WaitForExitAsync();
        }

        Task<CliRun> watching = CliRun.Async("watch", pipe, "--idle", "3");
        if (isWritten)
        {
            await File.WriteAllLinesAsync(pipe, _lines);
        }

        CliRun run = await watching.WaitAsync(TimeSpan.FromSeconds(60));

        run.ExitCode.Should().Be(isWritten ? ExitCode.Findings : ExitCode.Unusable, run.Error);
        run.Output.Contains("Findings: 5 violations", StringComparison.Ordinal).Should().Be(isWritten);
    }
}
