using Portwitness.Captures.Archives;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>
/// A folder that an instrument exported one capture into: its files as one input, which the service chooses from as from an archive. Links are
/// not followed, folders inside not entered, and files that no instrument exports are not sent.
/// </summary>
internal static class ExportFolder
{
    private const int MaxFiles = 1_000;
    private const long MaxBytes = 64L << 20;

    private static readonly string[] Endings = ["", ".csv", ".tsv", ".txt", ".tab", ".dat", ".bin", ".raw", ".vcd", ".log", ".jsonl", ".json", ".pcapng", ".words"];

    /// <summary>Whether a folder has a file that may be an export.</summary>
    public static bool Is(string folder) => Directory.Exists(folder) && Files(folder).Any();

    /// <summary>Opens it; <see cref="CommandFailure"/> says why it cannot be read.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="name">As messages name it.</param>
    public static Stream Open(string folder, string name)
    {
        FolderEntry[] files = [.. Files(folder)];
        if (files.Length == 0)
        {
            throw new CommandFailure(
                $"{name} is a folder without a recording and without the kernel's power-delivery capabilities; give a file, or a folder such as "
                + "/sys/class/typec/port0-partner/usb_power_delivery.");
        }

        if (files.Length > MaxFiles || files.Sum(static file => new FileInfo(file.Path).Length) > MaxBytes)
        {
            throw new CommandFailure($"{name} is a folder of more than {MaxFiles} files or {MaxBytes >> 20} MiB; give the capture itself.");
        }

        return FolderArchive.Pack(files.Select(file => (file.Name, (Func<Stream>)(() => RegularFile.Open(file.Path, $"{name}: {file.Name}")))));
    }

    private static IEnumerable<FolderEntry> Files(string folder) => FolderEntries.Of(folder).Where(static entry => !entry.IsSpelled && entry.Name[0] != '.'
        && Endings.Contains(Path.GetExtension(entry.Name), StringComparer.OrdinalIgnoreCase)
        && entry.Kind == FileKind.Regular && new FileInfo(entry.Path).LinkTarget is null);
}
