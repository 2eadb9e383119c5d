using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Files;

/// <summary>A capture, how it is to be read, and the measurements that go with it.</summary>
/// <param name="Capture">The capture's file.</param>
/// <param name="Reading">How it is read; null when nothing was said.</param>
/// <param name="Measurements">The measurements' file; null for none.</param>
/// <param name="Progress">Told how far the reading is.</param>
internal sealed record CaptureSource(InputFile Capture, ReadOptions? Reading, InputFile? Measurements, Progress Progress)
{
    /// <summary>Opens a file that the service asks for.</summary>
    public Stream Open(string name) => name == Capture.Name ? Capture.Open()
        : name == Measurements?.Name ? Measurements.Open()
        : throw new CommandFailure("that file was not named");
}
