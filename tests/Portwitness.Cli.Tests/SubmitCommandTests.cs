using System.Diagnostics;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>submit, submissions and tokens, as people use them, with a service in a process of its own.</summary>
public sealed class SubmitCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string Store => _folder.PathOf("reports.db");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task SubmittedDemos_AreJudged_AndSubmittedAgainChangeNothing()
    {
        using ServeProcess service = await ServeProcess.StartAsync("--store", Store);

        CliRun first = await CliRun.Async("submit", Repository.PathOf("captures"), "--server", service.Address, "--wait");
        CliRun again = await CliRun.Async("submit", Repository.PathOf("captures"), "--server", service.Address);
        CliRun list = await CliRun.Async("submissions", "--server", service.Address, "--state", "done");

        first.ExitCode.Should().Be(ExitCode.Findings, first.Error);
        first.Output.Should().Contain("clean-th65: done, report").And.Contain("HOLDS").And.Contain("broken-tp20");
        first.Error.Should().Contain("5 of 5 judged.");
        again.ExitCode.Should().Be(ExitCode.Clean);
        again.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Should().HaveCount(5).And.OnlyContain(static line => line.Contains(": done, report "));
        list.Output.Should().Contain("done").And.Contain("weak-tp10/product.yaml");
        (await CliRun.Async("history", "--store", Store)).Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Should().HaveCount(6);
    }

    [Fact]
    public async Task LargeCaptures_AreUploaded()
    {
        using ServeProcess service = await ServeProcess.StartAsync("--store", Store);
        Directory.CreateDirectory(_folder.PathOf("big"));
        string capture = await File.ReadAllTextAsync(Repository.PathOf("captures", "clean-th65", "c1.capture.jsonl"));
        await File.WriteAllTextAsync(_folder.PathOf("big/c1.capture.jsonl"), capture + string.Concat(Enumerable.Repeat(" \n", 800_000)));
        await File.WriteAllTextAsync(_folder.PathOf("big/product.yaml"), "product: Tarnholt big\nlabel: \"5V 3A\"\ncaptures:\n  - file: c1.capture.jsonl\n    port: C1\n");

        CliRun run = await CliRun.Async("submit", _folder.PathOf("big"), "--server", service.Address, "--wait", "--fail-on", "never");

        run.ExitCode.Should().Be(ExitCode.Clean, run.Error);
        run.Output.Should().Contain("big: done, report 1");
    }

    [Fact]
    public async Task OneThatCannotBeRead_DoesNotStopTheOthers()
    {
        using ServeProcess service = await ServeProcess.StartAsync("--store", Store);
        Directory.CreateDirectory(_folder.PathOf("bench/a"));
        Directory.CreateDirectory(_folder.PathOf("bench/b"));
        await File.WriteAllTextAsync(_folder.PathOf("bench/a/product.yaml"), new string('x', 2_000_000));
        await File.WriteAllTextAsync(_folder.PathOf("bench/b/product.yaml"), "product: b\nlabel: \"5V 3A\"\ncaptures:\n  - file: missing.jsonl\n");

        CliRun run = await CliRun.Async("submit", _folder.PathOf("bench"), "--server", service.Address);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Output.Should().Contain("b: ");
        run.Error.Should().Contain("a: ").And.Contain("1 of 2 accepted");
    }

    [Theory]
    [InlineData("submit", ".")]
    [InlineData("submissions")]
    [InlineData("submissions", "retry", "x")]
    public async Task WithoutAServer_ItIsSaidWhatIsMissing(params string[] args) =>
        (await CliRun.Async(args)).Error.Should().Contain("needs --server");

    [Fact]
    public async Task Tokens_OpenTheDoor_AndAreShownOnce()
    {
        CliRun made = await CliRun.Async("tokens", "create", "bench 3", "--role", "read", "--store", Store);
        string secret = made.Output.Trim();
        CliRun list = await CliRun.Async("tokens", "list", "--store", Store);
        string id = list.Output.Split('\n')[1].Split(' ')[0];
        using ServeProcess service = await ServeProcess.StartAsync("--store", Store, "--require-tokens");

        CliRun without = await CliRun.Async("rules", "--server", service.Address);
        CliRun with = await WithAsync("PORTWITNESS_TOKEN", secret, "rules", "--server", service.Address);
        CliRun beyond = await WithAsync("PORTWITNESS_TOKEN", secret, "check", Repository.PathOf("captures", "clean-th65"), "--server", service.Address);
        CliRun revoked = await CliRun.Async("tokens", "revoke", id, "--store", Store);
        CliRun twice = await CliRun.Async("tokens", "revoke", id, "--store", Store);

        secret.Should().MatchRegex("^pw_[0-9a-f]{64}$");
        list.Output.Should().Contain("bench 3").And.Contain("read").And.NotContain(secret);
        without.ExitCode.Should().NotBe(ExitCode.Clean);
        without.Error.Should().Contain("token");
        with.ExitCode.Should().Be(ExitCode.Clean, with.Error);
        beyond.Error.Should().Contain("role");
        revoked.ExitCode.Should().Be(ExitCode.Clean, revoked.Error);
        twice.ExitCode.Should().Be(ExitCode.Unusable);
        (await service.StopAsync()).Should().NotContain(secret);
    }

    [Fact]
    public async Task ReportThatDoesNotCome_IsWaitedForNoLongerThanTheLimit()
    {
        using ServeProcess service = await ServeProcess.StartAsync("--store", Store, "--workers", "0");

        CliRun run = await CliRun.Async("submit", Repository.PathOf("captures", "clean-th65"), "--server", service.Address, "--wait", "--wait-limit", "1").WaitAsync(TimeSpan.FromSeconds(60));

        run.ExitCode.Should().Be(ExitCode.NoService, run.Error);
        run.Error.Should().Contain("clean-th65: no report after 1 s; the submission is kept. Run the same command again to go on waiting.").And.Contain("0 of 1 judged");
    }

    [Fact]
    public async Task ServiceThatFillsItsDisk_JudgesWhatItAccepted_WhenThereIsRoomAgain()
    {
        using ServeProcess service = await ServeProcess.StartAsync("--store", Store);
        await CliRun.Async("submit", Repository.PathOf("captures", "clean-th65"), "--server", service.Address, "--wait");

        // A submission has room in the journal, its report has not: sizes of files stand for the disk's.
        await service.LimitFilesAsync(new FileInfo(Store + "-wal").Length + 40_000);
        CliRun accepted = await CliRun.Async("submit", Repository.PathOf("captures"), "--server", service.Address);
        CliRun full = await CliRun.Async("submit", Repository.PathOf("captures"), "--server", service.Address, "--wait", "--wait-limit", "2");
        await service.LimitFilesAsync(null);
        CliRun room = await CliRun.Async("submit", Repository.PathOf("captures"), "--server", service.Address, "--wait", "--wait-limit", "90");

        accepted.Output.Should().Contain(": queued", accepted.Error);
        full.Error.Should().NotContain("5 of 5 judged");
        room.Error.Should().Contain("5 of 5 judged.");
        room.Output.Should().NotContain("set aside");
        (await service.StopAsync()).Should().Contain("Work waits: ");
    }

    private static async Task<CliRun> WithAsync(string name, string value, params string[] args)
    {
        Environment.SetEnvironmentVariable(name, value);
        try
        {
            return await CliRun.Async(args);
        }
        finally
        {
            Environment.SetEnvironmentVariable(name, null);
        }
    }

    /// <summary>portwitness serve, stopped by SIGTERM.</summary>
    private sealed class ServeProcess(Process process, string address, Task<string> error) : IDisposable
    {
        public string Address => address;

        public static async Task<ServeProcess> StartAsync(params string[] options)
        {
            // A file that may not grow is an error like a full disk, not the end of the process.
            ProcessStartInfo start = new(
                "sh", ["-c", "trap '' XFSZ; exec dotnet \"$@\"", "sh", Path.Combine(AppContext.BaseDirectory, "portwitness.dll"), "serve", "--listen", "http://127.0.0.1:0", .. options])
            {
                RedirectStandardOutput = true, RedirectStandardError = true,
            };
            Process process = Process.Start(start)!;
            Task<string> error = process.StandardError.ReadToEndAsync();
            string line = await process.StandardOutput.ReadLineAsync() ?? "";
            return new ServeProcess(process, line["Listening on ".Length..], error);
        }

        /// <summary>No file of the service may be longer than this, or any may: setrlimit(2), RLIMIT_FSIZE.</summary>
        public async Task LimitFilesAsync(long? bytes)
        {
            string limit = bytes?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "unlimited";
            using Process change = Process.Start("prlimit", [$"--pid={process.Id}", $"--fsize={limit}:unlimited"]);
            await change.WaitForExitAsync();
            change.ExitCode.Should().Be(0);
        }

        public async Task<string> StopAsync()
        {
            using Process kill = Process.Start("kill", ["-TERM", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
            await process.WaitForExitAsync();
            process.ExitCode.Should().Be(0);
            return await error;
        }

        public void Dispose()
        {
            if (!process.HasExited)
            {
                process.Kill();
                process.WaitForExit();
            }

            process.Dispose();
        }
    }
}
