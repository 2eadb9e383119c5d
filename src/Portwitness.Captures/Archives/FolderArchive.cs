using System.Formats.Tar;

namespace Portwitness.Captures.Archives;

/// <summary>Packs the files of a folder, so that they can be read as one input.</summary>
public static class FolderArchive
{
    /// <summary>The comment by which the reader knows a folder.</summary>
    internal const string Comment = "portwitness folder";

    /// <summary>The archive.</summary>
    /// <param name="files">Each with its name; what is opened is closed here.</param>
    public static Stream Pack(IEnumerable<(string Name, Func<Stream> Open)> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        MemoryStream packed = new();
        using (TarWriter writer = new(packed, TarEntryFormat.Pax, leaveOpen: true))
        {
            writer.WriteEntry(new PaxGlobalExtendedAttributesTarEntry([new("comment", Comment)]));
            foreach ((string name, Func<Stream> open) in files)
            {
                using Stream content = open();
                writer.WriteEntry(new PaxTarEntry(TarEntryType.RegularFile, name) { DataStream = content });
            }
        }

        packed.Position = 0;
        return packed;
    }
}
