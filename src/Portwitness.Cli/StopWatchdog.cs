using System.Runtime.InteropServices;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli;

/// <summary>
/// Ends the process when it was told to end and did not. A command that waits in a call of the system (for the other side of a pipe, for a
/// reader of its output, for a disk) sees no cancellation.
/// </summary>
internal sealed class StopWatchdog : IDisposable
{
    /// <summary>As shells count a process that a signal ended.</summary>
    private const int ExitCodeOfSignals = 128;

    private readonly PosixSignalRegistration[] _signals;

    /// <param name="patience">How long a command has after the signal.</param>
    public StopWatchdog(TimeSpan patience) => _signals =
    [
        PosixSignalRegistration.Create(PosixSignal.SIGINT, _ => Begin(patience, ExitCodeOfSignals + 2)),
        PosixSignalRegistration.Create(PosixSignal.SIGTERM, _ => Begin(patience, ExitCodeOfSignals + 15)),
    ];

    public void Dispose()
    {
        foreach (PosixSignalRegistration signal in _signals)
        {
            signal.Dispose();
        }
    }

    // A thread of its own: those of the pool may be what waits.
    private static void Begin(TimeSpan patience, int exitCode) => new Thread(() =>
    {
        Thread.Sleep(patience);
        if (LinuxCalls.AreThere)
        {
            LinuxCalls.Exit(exitCode);
        }

        Environment.Exit(exitCode);
    })
    {
        IsBackground = true,
    }.Start();
}
