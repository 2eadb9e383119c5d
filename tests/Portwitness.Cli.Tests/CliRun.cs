using System.Text;

namespace Portwitness.Cli.Tests;

/// <summary>Runs a command line within the test and keeps what it writes.</summary>
internal sealed record CliRun(int ExitCode, string Output, string Error)
{
    public static Task<CliRun> Async(params string[] args) => WithInputAsync("", args);

    public static async Task<CliRun> WithInputAsync(string input, params string[] args)
    {
        using StringWriter output = new() { NewLine = "\n" };
        using StringWriter error = new() { NewLine = "\n" };
        Terminal terminal = new()
        {
            Input = new MemoryStream(Encoding.UTF8.GetBytes(input)),
            Output = output,
            Error = error,
        };
        int exitCode = await CommandLine.RunAsync(args, terminal);
        return new CliRun(exitCode, output.ToString(), error.ToString());
    }

    public string[] OutputLines => Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
}
