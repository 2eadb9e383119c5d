namespace Portwitness.Cli.Shell;

/// <summary>Ends a command with a message for people and an exit code.</summary>
internal sealed class CommandFailure(string message, int exitCode = ExitCode.Unusable) : Exception(message)
{
    public int ExitCode { get; } = exitCode;
}
