using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Watching;

/// <summary>Waits for new files of a folder, each until it does not grow any more. Files that are there at the beginning are left alone.</summary>
/// <param name="path">The folder.</param>
/// <param name="idle">Ends when no file came for so long; null for never.</param>
/// <param name="time">The clock.</param>
internal sealed class BenchFolder(string path, TimeSpan? idle, TimeProvider time)
{
    private const int MaxFiles = 100_000;
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(200);

    // Who exports a file writes it in one go.
    private static readonly TimeSpan Complete = TimeSpan.FromSeconds(1);

    private readonly Dictionary<string, (long Length, long Since)> _growing = [];

    /// <summary>Follows the folder until it is stopped.</summary>
    /// <param name="onFile">Told of each file that is complete.</param>
    /// <param name="stop">Stops it.</param>
    /// <exception cref="CommandFailure">The folder cannot be read.</exception>
    public async Task RunAsync(Func<string, Task> onFile, CancellationToken stop)
    {
        HashSet<string> done = [.. Files()];
        long changed = time.GetTimestamp();
        try
        {
            while (idle is not { } longest || time.GetElapsedTime(changed) < longest)
            {
                foreach (string file in Files().Where(file => !done.Contains(file)).Order(StringComparer.Ordinal))
                {
                    if (!IsComplete(file))
                    {
                        changed = time.GetTimestamp();
                        continue;
                    }

                    done.Add(file);
                    _growing.Remove(file);
                    await onFile(file);
                    changed = time.GetTimestamp();
                }

                await Task.Delay(Pause, time, stop);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Ctrl-C is how watching ends.
        }
    }

    private bool IsComplete(string file)
    {
        long length = new FileInfo(file) is { Exists: true } there ? there.Length : -1;
        if (_growing.TryGetValue(file, out (long Length, long Since) seen) && seen.Length == length)
        {
            return length > 0 && time.GetElapsedTime(seen.Since) >= Complete;
        }

        _growing[file] = (length, time.GetTimestamp());
        return false;
    }

    private List<string> Files()
    {
        try
        {
            return
            [
                .. Directory.EnumerateFiles(path).Where(static file => !Path.GetFileName(file).StartsWith('.') && FileKinds.Of(file) == FileKind.Regular).Take(MaxFiles),
            ];
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: cannot be read: {exception.Message}");
        }
    }
}
