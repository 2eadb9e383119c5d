using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>
/// A folder of the kernel's power-delivery class, or a copy of one, as the text that "grep -r ." would print of it. Links
/// inside are not followed, and nothing but capabilities is read: a folder that was named by mistake goes nowhere.
/// </summary>
internal static class SysfsFolder
{
    /// <summary>Entries that are looked at; a real folder has a few hundred.</summary>
    private const int MaxEntries = 20_000;

    private const int MaxFiles = 2000;
    private const int MaxDepth = 8;

    /// <summary>What sysfs gives of one attribute at most, whatever size it reports.</summary>
    private const int MaxBytes = 4096;

    private static readonly string[] Lists =
        ["source-capabilities", "sink-capabilities", "source_capabilities", "sink_capabilities"];

    /// <summary>Whether a folder holds capabilities.</summary>
    public static bool Is(string folder) => Directory.Exists(folder) && Files(folder).Any(file => IsOfList(file.Path));

    /// <summary>The text; <see cref="CommandFailure"/> says that there is none.</summary>
    /// <param name="folder">The folder, or a link to it.</param>
    /// <param name="name">As messages name it.</param>
    public static Stream Open(string folder, string name)
    {
        if (!Is(folder))
        {
            throw new CommandFailure(
                $"{name} is a folder without the kernel's power-delivery capabilities; give a file, or a folder such as "
                + "/sys/class/typec/port0-partner/usb_power_delivery.");
        }

        MemoryStream text = new();
        int files = 0;
        foreach ((string path, FileInfo file) in Files(folder).OrderBy(file => file.Path, StringComparer.Ordinal))
        {
            if (++files > MaxFiles)
            {
                throw new CommandFailure($"{name} is a folder with capabilities of many ports; give that of one charger.");
            }

            Write(text, path, file);
        }

        text.Position = 0;
        return text;
    }

    // Paths begin with the folder's own name, by which faults can name it.
    private static IEnumerable<(string Path, FileInfo File)> Files(string folder)
    {
        DirectoryInfo top = new(Path.GetFullPath(folder));
        EnumerationOptions options = new()
        {
            RecurseSubdirectories = true,
            MaxRecursionDepth = MaxDepth,
            AttributesToSkip = FileAttributes.ReparsePoint,
            IgnoreInaccessible = true,
        };
        foreach (FileSystemInfo entry in top.EnumerateFileSystemInfos("*", options).Take(MaxEntries))
        {
            string path = $"{top.Name}/{Path.GetRelativePath(top.FullName, entry.FullName).Replace('\\', '/')}";

            // The kernel's names are ASCII; what .NET cannot spell it cannot open.
            if (entry is FileInfo file && (IsOfList(path) || path.EndsWith("-partner/usb_power_delivery_revision", StringComparison.Ordinal))
                && FileKinds.Of(file.FullName) == FileKind.Regular && file.Length > 0)
            {
                yield return (path, file);
            }
        }
    }

    private static bool IsOfList(string path) => path.Split('/').SkipLast(1).Any(Lists.Contains);

    private static void Write(MemoryStream text, string path, FileInfo file)
    {
        byte[] content = new byte[MaxBytes];
        int length = 0;
        try
        {
            using FileStream stream = file.OpenRead();
            length = stream.ReadAtLeast(content, MaxBytes, throwOnEndOfStream: false);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            // Without a value the reader reports those that matter.
        }

        byte[] name = Encoding.UTF8.GetBytes(string.Concat(path.Select(letter => char.IsControl(letter) ? '?' : letter)) + ":");
        ReadOnlySpan<byte> lines = content.AsSpan(0, length).TrimEnd("\n\0"u8);
        foreach (Range line in lines.Split((byte)'\n'))
        {
            text.Write(name);
            text.Write(lines[line]);
            text.WriteByte((byte)'\n');
        }
    }
}
