using System.Text;
using Portwitness.Text;

namespace Portwitness.Cli.Files;

/// <summary>Names that a file system takes.</summary>
internal static class FileNames
{
    private const int MaxNames = 10_000;

    /// <summary>" Did you mean c1.csv?" of what lies beside a path that leads nowhere; empty when nothing is near.</summary>
    public static string DidYouMean(string path)
    {
        string? folder = Path.GetDirectoryName(path);
        string at = string.IsNullOrEmpty(folder) ? "." : folder;
        try
        {
            string? nearest = Directory.Exists(at)
                ? NearestName.Of(Path.GetFileName(path), Directory.EnumerateFileSystemEntries(at).Take(MaxNames).Select(static entry => Path.GetFileName(entry)))
                : null;
            return nearest is null ? "" : $" Did you mean {Path.Combine(folder ?? "", nearest)}?";
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return "";
        }
    }

    /// <summary>The beginning of a name that has so many bytes in UTF-8 at most, without half a character.</summary>
    public static string Cut(string name, int bytes)
    {
        (int length, int used) = (0, 0);
        foreach (Rune rune in name.EnumerateRunes())
        {
            used += rune.Utf8SequenceLength;
            if (used > bytes)
            {
                return name[..length];
            }

            length += rune.Utf16SequenceLength;
        }

        return name;
    }
}
