using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>watch of a port of this computer, on a made-up tree of the kernel's files, and of a folder.</summary>
public sealed class WatchPortTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string Partner => _folder.PathOf("typec/port0-partner");

    public void Dispose() => _folder.Dispose();

    // Check vectors F2 and F6; the second charger has 9 V 3 A.
    [Fact]
    public async Task EachCharger_IsAListThatIsPrintedAndKept()
    {
        string kept = _folder.PathOf("kept.capture.jsonl");
        Directory.CreateDirectory(_folder.PathOf("typec"));
        Task<CliRun> watching = CliRun.Async("watch", Partner, "--idle", "3", "--keep", kept);
        await Task.Delay(500);
        Attach("2220mA");
        await Task.Delay(1500);
        Directory.Delete(Partner, recursive: true);
        await Task.Delay(1000);
        Attach("3000mA");

        CliRun run = await watching.WaitAsync(TimeSpan.FromSeconds(60));

        run.Error.Should().Be($"portwitness: {Partner}: nothing is attached any more.\n");
        run.Output.Should().Contain($"{Partner}, list 1").And.Contain("9 V  2.22 A").And.Contain($"{Partner}, list 2").And.Contain("9 V  3 A");
        string[] lines = await File.ReadAllLinesAsync(kept);
        lines.Should().HaveCount(6);
        lines[0].Should().Contain("\"converted_from\":\"sysfs\"");
        lines.Where(static line => line.Contains("\"attach\"", StringComparison.Ordinal)).Should().HaveCount(2);
        (await CliRun.Async("decode", kept)).Output.Should().Contain("9 V  2.22 A").And.Contain("9 V  3 A");
    }

    [Fact]
    public async Task KeptFileThatIsThere_IsLeftAsItIs()
    {
        Attach("3000mA");
        string kept = _folder.Write("kept.capture.jsonl", "mine");

        CliRun run = await CliRun.Async("watch", Partner, "--idle", "1", "--keep", kept);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("is there already, and is left as it is");
        (await File.ReadAllTextAsync(kept)).Should().Be("mine");
        (await CliRun.Async("watch", kept, "--idle", "1", "--keep", "x")).Error.Should().Contain("--keep goes with a port of this computer");
    }

    [Fact]
    public async Task NewFilesOfAFolder_AreTakenAsTheyAppear()
    {
        _folder.Write("bench/old.words", "0x0801912C 0x0004B12C");
        Task<CliRun> watching = CliRun.Async("watch", _folder.PathOf("bench"), "--idle", "3");
        await Task.Delay(500);
        _folder.Write("bench/new.words", "0x0801912C 0x0002D0DE");
        _folder.Write("bench/notes.txt", "nothing");

        CliRun run = await watching.WaitAsync(TimeSpan.FromSeconds(60));

        run.Output.Should().Contain("new.words").And.Contain("9 V  2.22 A").And.NotContain("old.words");
        run.Error.Should().Contain("notes.txt").And.Contain("which no known format does");
        run.ExitCode.Should().Be(ExitCode.Unusable);
    }

    [Fact]
    public async Task RequestsAndContracts_AreToldAsTheyHappen()
    {
        string capture = _folder.PathOf("c1.capture.jsonl");
        string[] lines = await File.ReadAllLinesAsync(Repository.PathOf("captures", "broken-tp20", "c1.capture.jsonl"));
        await File.WriteAllTextAsync(capture, lines[0] + "\n");
        Task<CliRun> watching = CliRun.Async("watch", capture, "--idle", "2");
        foreach (string line in lines.Skip(1).Take(40))
        {
            await Task.Delay(120);
            await File.AppendAllTextAsync(capture, line + "\n");
        }

        CliRun run = await watching.WaitAsync(TimeSpan.FromSeconds(60));

        int requested = Array.FindIndex(run.OutputLines, static line => line.Contains(": requests object ", StringComparison.Ordinal));
        int agreed = Array.FindIndex(run.OutputLines, static line => line.Contains(": contract: object ", StringComparison.Ordinal));
        requested.Should().BeGreaterThanOrEqualTo(0, run.Output);
        agreed.Should().BeGreaterThan(requested);
    }

    private void Attach(string current)
    {
        const string lists = "typec/port0-partner/usb_power_delivery/source-capabilities";
        _folder.Write($"{lists}/1:fixed_supply/voltage", "5000mV\n");
        _folder.Write($"{lists}/1:fixed_supply/maximum_current", "3000mA\n");
        _folder.Write($"{lists}/2:fixed_supply/voltage", "9000mV\n");
        _folder.Write($"{lists}/2:fixed_supply/maximum_current", current + "\n");
        _folder.Write("typec/port0-partner/usb_power_delivery_revision", "3.0\n");
    }
}
