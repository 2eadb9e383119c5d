using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>
/// Standard streams that take nothing. /dev/full fails with ENOSPC (full(4)); ">&amp;-" starts a program without the stream (POSIX shell, 2.7.5).
/// </summary>
public sealed class StandardStreamTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public StandardStreamTests()
    {
        _folder.Write("bench/a/product.yaml", "product: Tarnholt TH-15\ncaptures:\n  - {file: c1.words, port: C1, in_use: [C1]}\n");
        _folder.Write("bench/a/c1.words", "0x0801912C");
        _folder.Write("c.capture.jsonl", File.ReadAllText(Repository.PathOf("captures", "clean-th65", "c1.capture.jsonl")));
    }

    public static TheoryData<string, int> Commands => new()
    {
        { "check bench/a", 0 }, { "check missing", 2 }, { "batch bench", 0 }, { "batch bench --format json", 0 }, { "decode c.capture.jsonl --messages", 0 },
        { "compare bench/a bench/a", 0 }, { "label 'USB-C1: 5V⎓3A'", 0 }, { "negotiate --list", 0 }, { "convert c.capture.jsonl - --to jsonl", 0 },
        { "convert c.capture.jsonl out.pcapng", 0 }, { "rules", 0 }, { "synthesize missing", 2 }, { "completion bash", 0 }, { "--help", 0 }, { "--version", 0 }, { "nonsense", 2 },
    };

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task StandardError_ThatTakesNothing_ChangesNothing(string command, int exitCode)
    {
        foreach (string stream in new[] { "2>/dev/full", "2>&-" })
        {
            (await RunAsync($"\"$P\" {command} {stream}")).ExitCode.Should().Be(exitCode, stream);
        }
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task StandardOutput_ThatTakesNothing_IsSaid(string command, int exitCode)
    {
        foreach ((string stream, string reason) in new[] { (">/dev/full", "No space left on device"), (">&-", "it is closed") })
        {
            ProgramRun run = await RunAsync($"\"$P\" {command} {stream}");

            run.ExitCode.Should().Be(ExitCode.Unusable, stream);
            run.Error.Split('\n').Count(static line => line.StartsWith("portwitness: standard output cannot be written", StringComparison.Ordinal))
                .Should().Be(exitCode == 0 ? 1 : 0, "it is said once, where anything was to be written");
            (exitCode == 0 ? run.Error : reason).Should().Contain(reason);
        }
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task NeitherStream_EndsCleanly(string command, int exitCode)
    {
        exitCode.Should().BeInRange(0, 2);
        (await RunAsync($"\"$P\" {command} >&- 2>&-")).ExitCode.Should().Be(ExitCode.Unusable);
        (await RunAsync($"\"$P\" {command} >/dev/full 2>/dev/full")).ExitCode.Should().Be(ExitCode.Unusable);
    }

    [Fact]
    public async Task NoFileOfOurs_BecomesAStandardStream()
    {
        ProgramRun run = await RunAsync("\"$P\" batch bench --output reports --format json >&- 2>&- <&-");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        File.ReadAllText(_folder.PathOf("reports/a.json")).Should().StartWith("{").And.NotContain("portwitness:");
        File.ReadAllLines(_folder.PathOf("reports/batch.journal.jsonl")).Should().ContainSingle().Which.Should().StartWith("{\"product\":");
    }

    [Theory]
    [InlineData("decode -")]
    [InlineData("check - --label 'USB-C1: 5V⎓3A'")]
    public async Task StandardInput_ThatIsClosed_IsEmpty(string command)
    {
        ProgramRun run = await RunAsync($"\"$P\" {command} <&-");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("standard input: Nothing in the input");
    }

    // A command that ends by itself keeps the exit code of its result, whoever reads.
    [Theory]
    [InlineData("check bench/a", 0)]
    [InlineData("rules", 0)]
    [InlineData("nonsense", 2)]
    public async Task ReaderThatHasEnough_ChangesNothing(string command, int exitCode) =>
        (await RunAsync($"\"$P\" {command} 2>/dev/null | head -c 1 >/dev/null; exit ${{PIPESTATUS[0]}}")).ExitCode.Should().Be(exitCode);

    // SIGPIPE is signal 13; shells count 128 + 13 (POSIX shell, 2.8.2).
    [Fact]
    public async Task BatchWhoseReaderHasGone_StopsThere()
    {
        foreach (int number in Enumerable.Range(0, 400))
        {
            _folder.Write($"many/p{number}/product.yaml", "product: Tarnholt TH-15\ncaptures:\n  - {file: c1.words, port: C1, in_use: [C1]}\n");
            _folder.Write($"many/p{number}/c1.words", "0x0801912C");
        }

        ProgramRun run = await RunAsync("\"$P\" batch many --format json | head -n 1; exit ${PIPESTATUS[0]}");

        run.ExitCode.Should().Be(141);
        run.Error.Should().NotContain("[400/400]").And.NotContain("fault in Portwitness");
        run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Should().ContainSingle();
    }

    // A pipe of Linux holds 64 KiB (pipe(7)); the rules in JSON are more, so that the program waits in a write that nobody takes.
    [Theory]
    [InlineData("check pipe", "TERM", 143)]
    [InlineData("decode pipe", "INT", 130)]
    [InlineData("label @pipe", "TERM", 143)]
    [InlineData("rules --format json >unread", "TERM", 143)]
    [InlineData("rules --format json >unread", "INT", 130)]
    public async Task Signal_EndsWhatWaits(string command, string signal, int exitCode)
    {
        DateTime began = DateTime.UtcNow;
        ProgramRun run = await RunAsync(
            $"mkfifo pipe unread; sleep 60 <>unread & other=$!; timeout --preserve-status -s {signal} 2 \"$P\" {command.Replace(">", "1<>", StringComparison.Ordinal)}; code=$?; kill $other; exit $code");

        run.ExitCode.Should().BeOneOf(exitCode, ExitCode.Interrupted);
        (DateTime.UtcNow - began).Should().BeLessThan(TimeSpan.FromSeconds(30));
    }

    [Fact]
    public async Task PipeOnTheCommandLine_IsRead()
    {
        ProgramRun run = await RunAsync("\"$P\" decode <(echo 0x0801912C)");

        run.ExitCode.Should().Be(0, run.Error);
        run.Output.Should().Contain("fixed");
    }

    private Task<ProgramRun> RunAsync(string line) => ProgramRun.Async($"cd '{_folder.Path}'; {line}");
}
