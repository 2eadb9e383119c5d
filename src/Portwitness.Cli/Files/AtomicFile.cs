using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>
/// A file that appears whole or not at all: written beside its place under another name, which <see cref="Commit"/>
/// gives up when the content is on disk. Devices (/dev/…) cannot be replaced and are written directly.
/// </summary>
internal sealed class AtomicFile : IDisposable
{
    /// <summary>Of 255 that a name has on Linux, what surrounds it needs 19.</summary>
    private const int MaxNameBytes = 230;

    private readonly string _place;
    private readonly string? _temporary;
    private TextWriter? _writer;
    private bool _committed;

    private AtomicFile(string place, string? temporary, FileStream stream)
    {
        _place = place;
        _temporary = temporary;
        Stream = stream;
    }

    /// <summary>For bytes.</summary>
    public Stream Stream { get; }

    /// <summary>For text, in UTF-8; in place of <see cref="Stream"/>.</summary>
    public TextWriter Writer =>
        _writer ??= new StreamWriter(Stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), 16 << 10);

    public static AtomicFile Create(string path)
    {
        try
        {
            if (path.StartsWith("/dev/", StringComparison.Ordinal))
            {
                return new AtomicFile(path, null, new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0));
            }

            // A link keeps pointing to where the report then is.
            FileInfo link = new(path);
            string place = link.LinkTarget is null ? link.FullName : link.ResolveLinkTarget(returnFinalTarget: true)!.FullName;
            if (Directory.Exists(place))
            {
                throw new CommandFailure($"{path}: is a folder; --output names a file.");
            }

            string temporary = Path.Combine(
                Path.GetDirectoryName(place)!, $".{FileNames.Cut(Path.GetFileName(place), MaxNameBytes)}.{Path.GetRandomFileName()}.part");
            FileStreamOptions options = new() { Mode = FileMode.CreateNew, Access = FileAccess.Write, BufferSize = 0 };
            if (!OperatingSystem.IsWindows() && File.Exists(place))
            {
                options.UnixCreateMode = File.GetUnixFileMode(place);
            }

            return new AtomicFile(place, temporary, new FileStream(temporary, options));
        }
        catch (DirectoryNotFoundException)
        {
            throw new CommandFailure($"{path}: its folder does not exist; create it first.");
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: cannot be written: {exception.Message}");
        }
    }

    /// <summary>Removes what processes that were killed have begun in a folder; nobody else may be writing there.</summary>
    public static void RemoveLeftovers(string folder)
    {
        foreach (string file in Directory.EnumerateFiles(folder, ".*.????????.???.part"))
        {
            File.Delete(file);
        }
    }

    /// <summary>The file is complete.</summary>
    /// <param name="syncFolder">Whether its name is on disk, too, when this returns; not where many files of one folder are, which is then synced once.</param>
    public void Commit(bool syncFolder = true)
    {
        _writer?.Flush();
        (Stream as FileStream)?.Flush(flushToDisk: _temporary is not null);
        Stream.Dispose();
        if (_temporary is not null)
        {
            File.Move(_temporary, _place, overwrite: true);
            if (syncFolder)
            {
                FolderSync.Run(Path.GetDirectoryName(_place)!);
            }
        }

        _committed = true;
    }

    public void Dispose()
    {
        if (_committed)
        {
            return;
        }

        // What the writer still holds is not wanted; writing it might fail once more.
        Stream.Dispose();
        if (_temporary is not null)
        {
            File.Delete(_temporary);
        }
    }
}
