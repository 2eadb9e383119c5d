using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>Opens files that are read to their end without anybody watching: regular ones, and none that is a hole.</summary>
internal static class RegularFile
{
    /// <summary>A recording is no hole; reading one takes hours and says nothing.</summary>
    private const long MaxHole = 1L << 30;

    private const int MaxHoles = 100_000;

    /// <summary>Opens a file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="name">As messages name it; the rest of the sentence follows.</param>
    /// <exception cref="CommandFailure">It is no file to be read.</exception>
    /// <exception cref="IOException">It cannot be opened.</exception>
    public static FileStream Open(string path, string name)
    {
        FileKind kind = FileKinds.Of(path);
        if (kind == FileKind.Missing)
        {
            throw new FileNotFoundException(null, path);
        }

        if (FileKinds.WhyUnreadable(kind) is { } reason)
        {
            throw new CommandFailure($"{name} {reason}.");
        }

        FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
        if (!HasLargeHole(stream))
        {
            return stream;
        }

        stream.Dispose();
        throw new CommandFailure($"{name} has more than 1 GiB that was never written (a sparse file); copy the recording again.");
    }

    private static bool HasLargeHole(FileStream stream)
    {
        if (!LinuxCalls.AreThere || stream.Length <= MaxHole)
        {
            return false;
        }

        (long at, long empty, int count) = (0, 0, 0);
        while (empty <= MaxHole && count++ < MaxHoles && LinuxCalls.HoleAfter(stream.SafeFileHandle, at, stream.Length) is { } hole)
        {
            empty += hole.To - hole.From;
            at = hole.To;
        }

        stream.Position = 0;
        return empty > MaxHole;
    }
}
