using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>One entry of a folder.</summary>
/// <param name="Path">Its path; what is not UTF-8 in its name is spelled out as \xE9.</param>
/// <param name="Stored">The path's bytes as they are stored, with a zero at the end.</param>
/// <param name="IsSpelled">Whether the name is not UTF-8, so that no string opens it.</param>
internal readonly record struct FolderEntry(string Path, ReadOnlyMemory<byte> Stored, bool IsSpelled)
{
    /// <summary>Why what has such a name is not read.</summary>
    public const string SpelledProblem = "its name is not UTF-8; rename it";

    public string Name => System.IO.Path.GetFileName(Path);

    /// <summary>What it is.</summary>
    public FileKind Kind => FileKinds.Of(Stored.Span);

    /// <summary>What a file in it is.</summary>
    public FileKind KindOf(string file) => FileKinds.Of([.. Stored.Span[..^1], (byte)'/', .. Encoding.UTF8.GetBytes(file), 0]);
}

/// <summary>Lists folders. .NET's own lists replace what is not UTF-8 in a name, and the result opens nothing.</summary>
internal static class FolderEntries
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>What is in a folder, in the order of paths.</summary>
    public static IReadOnlyList<FolderEntry> Of(string folder)
    {
        IEnumerable<FolderEntry> entries = LinuxCalls.AreThere ? LinuxCalls.NamesIn(folder).Select(name => Entry(folder, name))
            : Directory.EnumerateFileSystemEntries(folder).Select(static path => new FolderEntry(path, Bytes(path), false));
        return [.. entries.OrderBy(static entry => entry.Path, StringComparer.Ordinal)];
    }

    private static FolderEntry Entry(string folder, byte[] name)
    {
        try
        {
            string path = Path.Combine(folder, Strict.GetString(name));
            return new FolderEntry(path, Bytes(path), false);
        }
        catch (DecoderFallbackException)
        {
            byte[] above = Encoding.UTF8.GetBytes(Path.Combine(folder, "x"))[..^1];
            return new FolderEntry(Path.Combine(folder, Spelled(name)), (byte[])[.. above, .. name, 0], true);
        }
    }

    private static byte[] Bytes(string path) => [.. Encoding.UTF8.GetBytes(path), 0];

    private static string Spelled(ReadOnlySpan<byte> name)
    {
        StringBuilder spelled = new();
        while (!name.IsEmpty)
        {
            bool isWhole = Rune.DecodeFromUtf8(name, out Rune rune, out int length) == System.Buffers.OperationStatus.Done;
            foreach (byte one in isWhole ? [] : name[..length])
            {
                spelled.Append(System.Globalization.CultureInfo.InvariantCulture, $"\\x{one:X2}");
            }

            spelled.Append(isWhole ? rune.ToString() : "");
            name = name[length..];
        }

        return spelled.ToString();
    }
}
