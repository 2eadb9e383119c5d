using Google.Protobuf;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>Where a conversion goes: a file that appears whole or not at all, or standard output.</summary>
internal sealed class ConvertedFile(string path, Terminal terminal) : IDisposable
{
    private AtomicFile? _file;

    /// <summary>Writes a piece; the file is made for the first one, so that a command that fails before leaves nothing.</summary>
    public async ValueTask WriteAsync(ByteString piece, CancellationToken cancellation)
    {
        Stream stream = path == InputFile.StandardInput ? terminal.OutputBytes : (_file ??= AtomicFile.Create(path)).Stream;
        await stream.WriteAsync(piece.Memory, cancellation);
        terminal.StopWhenGone();
    }

    /// <summary>The file is complete.</summary>
    public void Commit()
    {
        _file?.Commit();
        if (path == InputFile.StandardInput)
        {
            terminal.OutputBytes.Flush();
        }
    }

    public void Dispose() => _file?.Dispose();
}
