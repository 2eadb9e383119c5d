using System.Text;

namespace Portwitness.Cli.Photos;

/// <summary>Files that may be photos: of a photo its recognised text is read, of anything else the file itself.</summary>
internal static class PhotoStream
{
    /// <summary>Recognised text in place of a photo; any other stream from its begin.</summary>
    /// <param name="stream">A file; it is closed when it is a photo.</param>
    /// <param name="name">As messages name it.</param>
    /// <param name="languages">As "tesseract" names them.</param>
    public static Stream Read(Stream stream, string name, string languages)
    {
        if (!stream.CanSeek)
        {
            return stream;
        }

        Span<byte> start = stackalloc byte[PictureFormat.BytesToTell];
        int read = stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false);
        stream.Position = 0;
        if (PictureFormat.Of(start[..read]) is not { } format)
        {
            return stream;
        }

        using (stream)
        {
            return new MemoryStream(Encoding.UTF8.GetBytes(PhotoText.Read(PhotoText.ReadAll(stream, name), format, name, languages)));
        }
    }
}
