using System.Globalization;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>
/// A file that is being written: reading waits at its end for more. The name is followed: another file may take its place. A pipe is read to its end.
/// </summary>
/// <param name="path">The file; it may appear later.</param>
/// <param name="idle">The file counts as complete when nothing was added for so long; null for never.</param>
/// <param name="time">The clock.</param>
internal sealed class GrowingFile(string path, TimeSpan? idle, TimeProvider time) : IDisposable
{
    // Looking is cheap, and works on every file system; being told of changes does not.
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(100);

    // Who renames a file before the next one is there leaves the name empty for a moment.
    private static readonly TimeSpan WhileReplaced = TimeSpan.FromSeconds(2);

    private FileStream? _file;
    private LatePipe? _pipe;
    private long _read;

    /// <summary>What came in the place of what was read to its end, in words; null when nothing did. <see cref="BeginAnew"/> goes on there.</summary>
    public string? Successor { get; private set; }

    /// <summary>The next bytes.</summary>
    /// <returns>How many; 0 when the file was replaced, cut short or taken away, or did not grow for long enough, or watching was stopped.</returns>
    /// <exception cref="CommandFailure">It cannot be read.</exception>
    public async Task<int> ReadAsync(Memory<byte> buffer, CancellationToken stop)
    {
        try
        {
            long since = time.GetTimestamp();
            long seen = since;
            while (!stop.IsCancellationRequested)
            {
                _pipe ??= _file is null && FileKinds.Of(path) is FileKind.Pipe or FileKind.Device ? new LatePipe(path) : null;
                if (_pipe is not null)
                {
                    return await ReadPipeAsync(_pipe, buffer, stop);
                }

                _file ??= TryOpen();

                // What was written before the look is read before what was seen counts.
                string? successor = FindSuccessor();
                int length = _file is null ? 0 : await _file.ReadAsync(buffer, stop);
                if (length > 0)
                {
                    _read += length;
                    return length;
                }

                if (successor is not null && _read > 0)
                {
                    Successor = successor;
                    return 0;
                }

                if (successor is not null)
                {
                    BeginAnew();
                    continue;
                }

                seen = _file is null || File.Exists(path) ? time.GetTimestamp() : seen;
                if (time.GetElapsedTime(seen) >= WhileReplaced || (idle is { } longest && time.GetElapsedTime(since) >= longest))
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

    /// <summary>Goes on at the beginning of what now has the name.</summary>
    public void BeginAnew()
    {
        _file?.Dispose();
        (_file, _read, Successor) = (null, 0, null);
    }

    public void Dispose()
    {
        _file?.Dispose();
        _pipe?.Dispose();
    }

    // Opening a pipe waits for its writer, and reading for what it writes; either can be given up. When all writers have left it has ended.
    private async Task<int> ReadPipeAsync(LatePipe pipe, Memory<byte> buffer, CancellationToken stop)
    {
        using CancellationTokenSource patience = idle is { } longest ? new CancellationTokenSource(longest, time) : new CancellationTokenSource();
        using CancellationTokenSource either = CancellationTokenSource.CreateLinkedTokenSource(stop, patience.Token);
        int length = await pipe.ReadAsync(buffer, either.Token);
        _read += length;
        return length;
    }

    private string? FindSuccessor()
    {
        if (_file is null)
        {
            return null;
        }

        if (_file.Length < _read)
        {
            return "was cut short";
        }

        using FileStream? now = TryOpen();
        return now is null || LinkOf(now) == LinkOf(_file) ? null : "was replaced";
    }

    // Where Linux says that an open file is: the name it has now, or that it has none any more. Other systems do not tell.
    private static string? LinkOf(FileStream file) =>
        new FileInfo(string.Create(CultureInfo.InvariantCulture, $"/proc/self/fd/{file.SafeFileHandle.DangerousGetHandle()}")).LinkTarget;

    private FileStream? TryOpen()
    {
        try
        {
            return Directory.Exists(path) ? throw new CommandFailure($"{path}: is a folder; a file is expected here.")
                : File.Exists(path) ? new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0) : null;
        }
        catch (FileNotFoundException)
        {
            // Taken away since the look.
            return null;
        }
    }
}
