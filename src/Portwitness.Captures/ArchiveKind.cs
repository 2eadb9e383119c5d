namespace Portwitness.Captures;

/// <summary>What holds the files of a capture.</summary>
internal enum ArchiveKind
{
    Zip,
    Tar,

    /// <summary>A folder, packed to be read as one input.</summary>
    Folder,
}
