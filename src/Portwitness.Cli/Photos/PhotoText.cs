using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Photos;

/// <summary>
/// The text of a photo as a table of words with their boxes and how sure the program was. The photo is made grey, straight and large enough
/// ("convert" of ImageMagick) and read by "tesseract"; nothing else is known of what is on it.
/// </summary>
internal static class PhotoText
{
    private const int MaxBytes = 50 << 20;

    // Below 20 pixels of a small letter more and more is read wrongly (measured on rendered labels).
    private const string AtLeast = "1800x1800<";

    // Other programs have that name, too.
    private const string DebianConvert = "/usr/bin/convert";

    private static readonly OutsideProgram Convert = new(File.Exists(DebianConvert) ? DebianConvert : "convert", "imagemagick");
    private static readonly OutsideProgram Tesseract = new("tesseract", "tesseract-ocr");

    /// <summary>Recognises the text of a photo.</summary>
    /// <param name="photo">The file's bytes.</param>
    /// <param name="format">Its format, as <see cref="PictureFormat"/> tells it.</param>
    /// <param name="name">As messages name it.</param>
    /// <param name="languages">As "tesseract" names them, for example "eng+deu".</param>
    /// <exception cref="CommandFailure">A program is missing, or nothing can be read.</exception>
    public static string Read(byte[] photo, string format, string name, string languages)
    {
        // A fixed format keeps what the file says of itself from choosing another reader.
        (byte[]? straight, string refused) = Convert.Run(
            photo, "-limit", "memory", "1GiB", "-limit", "disk", "0", $"{format}:-[0]", "-auto-orient", "-background", "white", "-alpha", "remove", "-colorspace", "Gray",
            "-resize", AtLeast, "-deskew", "40%", "-normalize", "-bordercolor", "white", "-border", "10", "png:-");
        if (straight is null)
        {
            throw new CommandFailure($"{name}: the photo cannot be read ({FirstLine(refused)}); save it again as PNG or JPEG.");
        }

        // Dictionaries make words of codes and ratings.
        (byte[]? table, string complaint) = Tesseract.Run(
            straight, "-", "-", "-l", languages, "--oem", "1", "--psm", "6", "-c", "load_system_dawg=0", "-c", "load_freq_dawg=0", "tsv");
        if (table is null)
        {
            string package = $"tesseract-ocr-{languages.Split('+')[^1].Replace('_', '-')}";
            throw new CommandFailure(
                $"{name}: tesseract could not read the photo ({FirstLine(complaint)}). Where a language is missing: apt-get install {package}.");
        }

        return Encoding.UTF8.GetString(table);
    }

    /// <summary>The whole file.</summary>
    /// <exception cref="CommandFailure">It is too large.</exception>
    public static byte[] ReadAll(Stream stream, string name)
    {
        using MemoryStream kept = new();
        byte[] buffer = new byte[1 << 16];
        for (int read = stream.Read(buffer); read > 0; read = stream.Read(buffer))
        {
            if (kept.Length + read > MaxBytes)
            {
                throw new CommandFailure($"{name}: longer than {MaxBytes >> 20} MiB; give a smaller photo of the label alone.");
            }

            kept.Write(buffer, 0, read);
        }

        return kept.ToArray();
    }

    private static string FirstLine(string text) => text.Split('\n', 2)[0].Trim() is { Length: > 0 } line ? line : "no reason given";
}
