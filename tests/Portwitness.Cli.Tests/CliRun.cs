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

    public static async Task<CliRun> WithInputAsync(byte[] input, params string[] args)
    {
        using StringWriter output = new() { NewLine = "\n" };
        using StringWriter error = new() { NewLine = "\n" };
        using MemoryStream bytes = new();
        Terminal terminal = new()
        {
            Input = new MemoryStream(input),
            Output = output,
            OutputBytes = bytes,
            Error = error,
        };
        int exitCode = await CommandLine.RunAsync(args, terminal);
        return new CliRun(exitCode, output.ToString(), error.ToString()) { OutputBytes = bytes.ToArray() };
    }

    public string[] OutputLines => Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
}
