namespace Portwitness.Cli.Shell;

/// <summary>Standard output takes no more; unlike <see cref="CommandFailure"/> it is never the fault of one input of several.</summary>
/// <param name="message">For people; empty where nobody is surprised.</param>
/// <param name="exitCode">How the command ends.</param>
internal sealed class OutputFailure(string message, int exitCode) : Exception(message)
{
    public int ExitCode { get; } = exitCode;
}
