using System.Text;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Watching;

/// <summary>
/// The folder in which a kernel shows what is attached to a port: /sys/class/typec/port0-partner, or its power-delivery directory. It comes and
/// goes with the partner.
/// </summary>
internal sealed class PartnerFolder(string path)
{
    private const string Lists = "usb_power_delivery";
    private const string Revision = "usb_power_delivery_revision";

    /// <summary>Whether a path is such a folder, or will be when something is attached.</summary>
    public static bool Is(string path) =>
        Path.GetFileName(Path.TrimEndingDirectorySeparator(path)).EndsWith("-partner", StringComparison.Ordinal)
        || Path.GetFileName(Path.TrimEndingDirectorySeparator(path)) == Lists
        || SysfsFolder.Is(path);

    /// <summary>What is shown now, as text; null while nothing is attached, or nothing is shown of it.</summary>
    public string? Read()
    {
        // The kernel links from the partner to the lists.
        string linked = Path.Combine(path, Lists);
        string folder = Directory.Exists(linked) ? linked : path;
        try
        {
            if (!SysfsFolder.Is(folder))
            {
                return null;
            }

            using StreamReader reader = new(SysfsFolder.Open(folder, path), Encoding.UTF8);
            return reader.ReadToEnd() + RevisionLine();
        }
        catch (Exception exception) when (exception is CommandFailure or IOException or UnauthorizedAccessException)
        {
            // Taken away while it was read.
            return null;
        }
    }

    private string RevisionLine()
    {
        string file = Path.Combine(path, Revision);
        string name = Path.GetFileName(Path.TrimEndingDirectorySeparator(path));
        return File.Exists(file) ? $"{name}/{Revision}:{File.ReadAllText(file).Trim()}\n" : "";
    }
}
