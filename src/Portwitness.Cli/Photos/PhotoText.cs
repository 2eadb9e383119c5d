using System.Globalization;
using System.Text;
using Portwitness.Cli.Shell;
using Portwitness.Labels.Photos;

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

    // The page shows it 740 units wide.
    private const string AtMost = "1200x2400>";

    private static readonly string[] Limits = ["-limit", "memory", "1GiB", "-limit", "disk", "0"];

    // Of full brightness, in percent.
    private const int Dark = 50;

    // Other programs have that name, too.
    private const string DebianConvert = "/usr/bin/convert";

    private static readonly OutsideProgram Convert = new(File.Exists(DebianConvert) ? DebianConvert : "convert", "imagemagick");
    private static readonly OutsideProgram Tesseract = new("tesseract", "tesseract-ocr");

    /// <summary>Recognises the text of a photo.</summary>
    /// <param name="photo">The file's bytes.</param>
    /// <param name="format">Its format, as <see cref="PictureFormat"/> tells it.</param>
    /// <param name="name">As messages name it.</param>
    /// <param name="photos">In which languages; takes the picture where one is wanted.</param>
    /// <exception cref="CommandFailure">A program is missing, or nothing can be read.</exception>
    public static string Read(byte[] photo, string format, string name, PhotoReading photos)
    {
        (byte[]? mean, string refused) = Convert.Run(photo, [.. Opened(format), "-format", "%[fx:int(100*mean)]", "info:"]);
        if (mean is null)
        {
            throw new CommandFailure($"{name}: the photo cannot be read ({FirstLine(refused)}); save it again as PNG or JPEG.");
        }

        // Letters are read dark on light; displays have them the other way.
        string[] turned = int.TryParse(Encoding.ASCII.GetString(mean), NumberStyles.None, CultureInfo.InvariantCulture, out int percent) && percent < Dark ? ["-negate"] : [];
        (byte[]? straight, refused) = Convert.Run(
            photo, [.. Opened(format), .. turned, "-resize", AtLeast, "-deskew", "40%", "-normalize", "-bordercolor", "white", "-border", "10", "png:-"]);
        if (straight is null)
        {
            throw new CommandFailure($"{name}: the photo cannot be read ({FirstLine(refused)}); save it again as PNG or JPEG.");
        }

        // Dictionaries make words of codes and ratings.
        (byte[]? table, string complaint) = Tesseract.Run(
            straight, "-", "-", "-l", photos.Languages, "--oem", "1", "--psm", "6", "-c", "load_system_dawg=0", "-c", "load_freq_dawg=0", "tsv");
        if (table is null)
        {
            string package = $"tesseract-ocr-{photos.Languages.Split('+')[^1].Replace('_', '-')}";
            throw new CommandFailure(
                $"{name}: tesseract could not read the photo ({FirstLine(complaint)}). Where a language is missing: apt-get install {package}.");
        }

        string words = Encoding.UTF8.GetString(table);
        if (photos.KeepsPictures && RecognisedText.TryRead(words) is { } recognised && Picture(straight, turned) is { } picture)
        {
            photos.Keep(recognised.Text, picture);
        }

        return words;
    }

    // Straightened as it was read, so that boxes stand where words do; made anew, so that nothing of the file but its pixels is in it.
    private static byte[]? Picture(byte[] straight, string[] turned) => Convert.Run(
        straight, [.. Limits, "png:-", .. turned, "-resize", AtMost, "-strip", "-define", "jpeg:extent=300kb", "-quality", "80", "jpeg:-"]).Output;

    // A fixed format keeps what the file says of itself from choosing another reader.
    private static string[] Opened(string format) =>
        [.. Limits, $"{format}:-[0]", "-auto-orient", "-background", "white", "-alpha", "remove", "-colorspace", "Gray"];

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
