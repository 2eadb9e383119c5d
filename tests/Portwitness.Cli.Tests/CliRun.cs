using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>Runs a command line within the test and keeps what it writes.</summary>
internal sealed record CliRun(int ExitCode, string Output, string Error)
{
    /// <summary>What was written to standard output as bytes.</summary>
    public byte[] OutputBytes { get; init; } = [];

    public static Task<CliRun> Async(params string[] args) => WithInputAsync("", args);

    public static Task<CliRun> WithInputAsync(string input, params string[] args) =>
        WithInputAsync(Encoding.UTF8.GetBytes(input), args);

    public static Task<CliRun> WithInputAsync(byte[] input, params string[] args) => RunAsync(input, isTerminal: false, args);

    /// <summary>A person answers, a line each.</summary>
    public static Task<CliRun> WithAnswersAsync(string[] answers, params string[] args) =>
        RunAsync(Encoding.UTF8.GetBytes(string.Concat(answers.Select(static answer => answer + "\n"))), isTerminal: true, args);

    private static async Task<CliRun> RunAsync(byte[] input, bool isTerminal, string[] args)
    {
        using StringWriter output = new() { NewLine = "\n" };
        using StringWriter error = new() { NewLine = "\n" };
        using MemoryStream bytes = new();
        Terminal terminal = new()
        {
            Input = new MemoryStream(input),
            InputIsTerminal = isTerminal,
            Output = output,
            OutputBytes = bytes,
            Error = error,
        };
        int exitCode = await CommandLine.RunAsync(args, terminal);
        return new CliRun(exitCode, output.ToString(), error.ToString()) { OutputBytes = bytes.ToArray() };
    }

    public string[] OutputLines => Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
}
