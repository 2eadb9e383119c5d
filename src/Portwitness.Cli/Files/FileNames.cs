using System.Text;

namespace Portwitness.Cli.Files;

/// <summary>Names that a file system takes.</summary>
internal static class FileNames
{
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
