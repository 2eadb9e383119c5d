using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>What a path leads to.</summary>
internal enum FileKind
{
    Missing,
    Regular,
    Folder,
    Pipe,
    Socket,
    Device,
    BrokenLink,
    LinkCircle,

    /// <summary>A folder on the way may not be searched.</summary>
    NotPermitted,
}

/// <summary>Tells kinds of files apart without opening them: opening a pipe waits, opening a device may do something.</summary>
internal static class FileKinds
{
    public static FileKind Of(string path) => LinuxCalls.AreThere ? Of([.. Encoding.UTF8.GetBytes(path), 0])
        : Directory.Exists(path) ? FileKind.Folder
        : File.Exists(path) ? FileKind.Regular
        : new FileInfo(path).LinkTarget is null ? FileKind.Missing : FileKind.BrokenLink;

    /// <summary>The same of a path's bytes, with a zero at the end.</summary>
    public static FileKind Of(ReadOnlySpan<byte> path)
    {
        if (!LinuxCalls.TryTypeOf(path, follow: true, out int type, out int error))
        {
            return error switch
            {
                LinuxCalls.TooManyLinks => FileKind.LinkCircle,
                LinuxCalls.NotPermitted => FileKind.NotPermitted,
                LinuxCalls.NoEntry when LinuxCalls.TryTypeOf(path, follow: false, out _, out _) => FileKind.BrokenLink,
                _ => FileKind.Missing,
            };
        }

        // sys/stat.h, S_IFMT.
        return type switch
        {
            0x8000 => FileKind.Regular,
            0x4000 => FileKind.Folder,
            0x1000 => FileKind.Pipe,
            0xC000 => FileKind.Socket,
            _ => FileKind.Device,
        };
    }

    /// <summary>Why it is no file that can be read to its end, and what to do, as the rest of a sentence; null for a regular file.</summary>
    public static string? WhyUnreadable(FileKind kind) => kind switch
    {
        FileKind.Regular => null,
        FileKind.Folder => "is a folder; a file is expected here",
        FileKind.Pipe => "is a pipe; write what comes out of it to a file, and name that",
        FileKind.Socket => "is a socket; write what comes out of it to a file, and name that",
        FileKind.Device => "is a device; write what comes out of it to a file, and name that",
        FileKind.BrokenLink => "is a link that leads nowhere; mend or remove it",
        FileKind.LinkCircle => "is a link that leads in a circle; mend or remove it",
        FileKind.NotPermitted => "is in a folder that may not be searched; ask for permission to read it",
        _ => "is missing",
    };
}
