using System.Text;

namespace Portwitness.Cli.Photos;

/// <summary>Files that may be photos: of a photo its recognised text is read, of anything else the file itself.</summary>
internal static class PhotoStream
{
    /// <summary>Recognised text in place of a photo; any other stream from its begin.</summary>
    /// <param name="stream">A file; it is closed when it is a photo.</param>
    /// <param name="name">As messages name it.</param>
    /// <param name="photos">How photos are read.</param>
    public static Stream Read(Stream stream, string name, PhotoReading photos)
    {
        if (TryRead(stream, name, photos) is not { } table)
        {
            return stream;
        }

        stream.Dispose();
        return new MemoryStream(Encoding.UTF8.GetBytes(table));
    }

    /// <summary>Recognised text of a photo; null, and the stream at its begin, for anything else.</summary>
    public static string? TryRead(Stream stream, string name, PhotoReading photos)
    {
        if (!stream.CanSeek)
        {
            return null;
        }

        Span<byte> start = stackalloc byte[PictureFormat.BytesToTell];
        int read = stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false);
        stream.Position = 0;
        return PictureFormat.Of(start[..read]) is { } format ? PhotoText.Read(PhotoText.ReadAll(stream, name), format, name, photos) : null;
    }
}
