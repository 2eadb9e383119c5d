using System.Runtime.InteropServices;

namespace Portwitness.Cli.Shell;

/// <summary>
/// Calls of Linux's C library that .NET has no name for. Structures and numbers are those of a 64-bit kernel's headers
/// (linux/stat.h, linux/fcntl.h, dirent.h), which are the same for every such processor.
/// </summary>
internal static unsafe partial class LinuxCalls
{
    /// <summary>errno.h.</summary>
    public const int NoEntry = 2, Interrupted = 4, TryAgain = 11, NotPermitted = 13, NotSupported = 22, ReadOnlyFileSystem = 30, BrokenPipe = 32,
        TooManyLinks = 40;

    private const int AtCurrentFolder = -100;
    private const int NoFollow = 0x100;
    private const uint TypeOnly = 1;
    private const int CloseOnExec = 0x80000;
    private const int GetDescriptorFlags = 1;
    private const int SeekData = 3;
    private const int SeekHole = 4;
    private const int NameOffset = 19;

    /// <summary>Whether they can be used here.</summary>
    public static bool AreThere { get; } = OperatingSystem.IsLinux() && Environment.Is64BitProcess;

    /// <summary>The type bits of a file's mode; false with the error when it cannot be told.</summary>
    /// <param name="path">The path's bytes, with a zero at the end.</param>
    /// <param name="follow">Whether the end of the path is followed when it is a link.</param>
    /// <param name="type">S_IFMT of st_mode.</param>
    /// <param name="error">errno.</param>
    public static bool TryTypeOf(ReadOnlySpan<byte> path, bool follow, out int type, out int error)
    {
        byte* status = stackalloc byte[256];
        fixed (byte* bytes = path)
        {
            bool isKnown = StatX(AtCurrentFolder, bytes, follow ? 0 : NoFollow, TypeOnly, status) == 0;
            error = isKnown ? 0 : Marshal.GetLastPInvokeError();
            type = isKnown ? *(ushort*)(status + 28) & 0xF000 : 0;
            return isKnown;
        }
    }

    /// <summary>The names in a folder as they are stored, without "." and "..".</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static List<byte[]> NamesIn(string folder)
    {
        nint stream = OpenFolder(folder);
        if (stream == 0)
        {
            throw Failure(folder);
        }

        try
        {
            List<byte[]> names = [];
            for (nint entry; (entry = ReadFolder(stream)) != 0;)
            {
                ReadOnlySpan<byte> name = MemoryMarshal.CreateReadOnlySpanFromNullTerminated((byte*)entry + NameOffset);
                if (!name.SequenceEqual("."u8) && !name.SequenceEqual(".."u8))
                {
                    names.Add(name.ToArray());
                }
            }

            return names;
        }
        finally
        {
            _ = CloseFolder(stream);
        }
    }

    /// <summary>Has a folder's entries reach the disk; file systems that cannot, and folders that may not be read, are left alone.</summary>
    /// <exception cref="IOException">It failed.</exception>
    public static void SyncFolder(string folder)
    {
        int descriptor = Open(folder, CloseOnExec);
        if (descriptor < 0 && Marshal.GetLastPInvokeError() == NotPermitted)
        {
            return;
        }

        if (descriptor < 0)
        {
            throw Failure(folder);
        }

        int error = Sync(descriptor) == 0 ? 0 : Marshal.GetLastPInvokeError();
        _ = Close(descriptor);
        if (error is not (0 or NotSupported or ReadOnlyFileSystem))
        {
            throw new IOException($"{folder}: {Marshal.GetPInvokeErrorMessage(error)}");
        }
    }

    /// <summary>The next hole of an open file, from a place on, and where data goes on after it; null for none.</summary>
    public static (long From, long To)? HoleAfter(SafeHandle file, long place, long end)
    {
        long hole = Seek(file, place, SeekHole);
        if (hole < 0 || hole >= end)
        {
            return null;
        }

        long data = Seek(file, hole, SeekData);
        return (hole, data < 0 ? end : data);
    }

    /// <summary>Whether the process was given a descriptor when it began. What it opened itself is closed on exec; what it was given cannot be.</summary>
    public static bool WasGiven(int descriptor) => Control(descriptor, GetDescriptorFlags) == 0;

    /// <summary>Puts /dev/null wherever one of the three standard descriptors is free, so that no file of ours becomes one of them.</summary>
    public static void FillStandardDescriptors()
    {
        int descriptor;
        do
        {
            descriptor = Open("/dev/null", 2);
        }
        while (descriptor is >= 0 and < 3);

        _ = descriptor < 0 ? 0 : Close(descriptor);
    }

    /// <summary>Writes to a descriptor.</summary>
    /// <returns>How many bytes; negative for an error.</returns>
    public static long Write(int descriptor, ReadOnlySpan<byte> bytes, out int error)
    {
        fixed (byte* first = bytes)
        {
            long written = Write(descriptor, first, bytes.Length);
            error = written < 0 ? Marshal.GetLastPInvokeError() : 0;
            return written;
        }
    }

    /// <summary>Ends the process at once, whatever its threads are doing.</summary>
    [LibraryImport("libc", EntryPoint = "_exit")]
    public static partial void Exit(int exitCode);

    private static IOException Failure(string path) => new($"{path}: {Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError())}");

    [LibraryImport("libc", EntryPoint = "statx", SetLastError = true)]
    private static partial int StatX(int folder, byte* path, int flags, uint mask, byte* status);

    [LibraryImport("libc", EntryPoint = "opendir", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial nint OpenFolder(string path);

    [LibraryImport("libc", EntryPoint = "readdir", SetLastError = true)]
    private static partial nint ReadFolder(nint stream);

    [LibraryImport("libc", EntryPoint = "closedir")]
    private static partial int CloseFolder(nint stream);

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "close")]
    private static partial int Close(int descriptor);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Sync(int descriptor);

    [LibraryImport("libc", EntryPoint = "lseek", SetLastError = true)]
    private static partial long Seek(SafeHandle file, long offset, int from);

    [LibraryImport("libc", EntryPoint = "fcntl")]
    private static partial int Control(int descriptor, int command);

    [LibraryImport("libc", EntryPoint = "write", SetLastError = true)]
    private static partial nint Write(int descriptor, byte* bytes, nint length);
}
