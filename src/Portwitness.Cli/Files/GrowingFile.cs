namespace Portwitness.Cli.Files;

/// <summary>A file that is being written: reading waits at its end for more.</summary>
/// <param name="path">The file; it may appear later.</param>
/// <param name="idle">The file counts as complete when nothing was added for so long; null for never.</param>
/// <param name="time">The clock.</param>
internal sealed class GrowingFile(string path, TimeSpan? idle, TimeProvider time) : IDisposable
{
    // Looking is cheap, and works on every file system; being told of changes does not.
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(100);

    private FileStream? _file;
    private long _read;

    /// <summary>The next bytes.</summary>
    /// <returns>How many; 0 when the file was taken away, or did not grow for long enough, or watching was stopped.</returns>
    /// <exception cref="CommandFailure">It cannot be read, or was cut short.</exception>
    public async Task<int> ReadAsync(Memory<byte> buffer, CancellationToken stop)
    {
        try
        {
            for (long since = time.GetTimestamp(); !stop.IsCancellationRequested;)
            {
                _file ??= TryOpen();
                int length = _file is null ? 0 : await _file.ReadAsync(buffer, stop);
                if (length > 0)
                {
                    _read += length;
                    return length;
                }

                if (_file is not null && _file.Length < _read)
                {
                    throw new CommandFailure($"{path}: is shorter than it was; watch a file that is only added to.");
                }

                if ((_file is not null && !File.Exists(path)) || (idle is { } longest && time.GetElapsedTime(since) >= longest))
                {
                    return 0;
                }

                await Task.Delay(Pause, time, stop);
            }
        }
        catch (OperationCanceledException)
        {
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: reading failed at byte {_read}: {exception.Message}");
        }

        return 0;
    }

    public void Dispose() => _file?.Dispose();

    private FileStream? TryOpen() => Directory.Exists(path) ? throw new CommandFailure($"{path}: is a folder; a file is expected here.")
        : File.Exists(path) ? new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0) : null;
}
