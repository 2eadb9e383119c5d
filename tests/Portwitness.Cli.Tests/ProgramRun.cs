using System.Diagnostics;

namespace Portwitness.Cli.Tests;

/// <summary>Runs the program in a process of its own, through a shell, which gives it what a shell can give.</summary>
internal sealed record ProgramRun(int ExitCode, string Output, string Error)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>The program that was built beside the tests.</summary>
    public static string Program => Path.Combine(AppContext.BaseDirectory, "portwitness");

    /// <summary>Runs a line of bash, in which $P is the program.</summary>
    public static async Task<ProgramRun> Async(string line)
    {
        using Process shell = Start(line);
        Task<string> output = shell.StandardOutput.ReadToEndAsync();
        Task<string> error = shell.StandardError.ReadToEndAsync();
        using CancellationTokenSource patience = new(Patience);
        try
        {
            await shell.WaitForExitAsync(patience.Token);
        }
        catch (OperationCanceledException)
        {
            shell.Kill(entireProcessTree: true);
            throw new TimeoutException($"{line}: has not ended after {Patience}");
        }

        return new ProgramRun(shell.ExitCode, await output, await error);
    }

    /// <summary>Starts a line of bash.</summary>
    public static Process Start(string line) => Process.Start(new ProcessStartInfo("/bin/bash", ["-c", line])
    {
        RedirectStandardInput = true,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
        Environment = { ["P"] = Program },
    })!;
}
