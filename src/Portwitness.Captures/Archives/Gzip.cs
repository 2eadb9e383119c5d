using System.IO.Compression;

namespace Portwitness.Captures.Archives;

/// <summary>Compressed files, as they are named and written.</summary>
public static class Gzip
{
    /// <summary>The ending of their names; it may follow any other.</summary>
    public const string Ending = ".gz";

    /// <summary>A stream that compresses what is written to it; disposing it ends the file and leaves the other one open.</summary>
    public static Stream Pack(Stream stream) => new GZipStream(stream, CompressionLevel.Fastest, leaveOpen: true);
}
