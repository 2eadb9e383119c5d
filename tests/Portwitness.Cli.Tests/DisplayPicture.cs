using System.Diagnostics;
using System.Globalization;
using System.Text;

namespace Portwitness.Cli.Tests;

/// <summary>Draws what an instrument's display shows, by ImageMagick: in a font, or with digits of seven segments.</summary>
internal static class DisplayPicture
{
    public const string Packages = "imagemagick, tesseract-ocr and fonts-dejavu-core";
    public const string Convert = "/usr/bin/convert";
    public const string Tesseract = "/usr/bin/tesseract";
    public const string Fonts = "/usr/share/fonts/truetype/dejavu";

    /// <summary>The segments a to g of digits, as every seven-segment display has them.</summary>
    private static readonly string[] Segments = ["abcdef", "bc", "abged", "abgcd", "fgbc", "afgcd", "afgedc", "abc", "abcdefg", "abcdfg"];

    public static string InFont(string path, IEnumerable<string> lines, string font, string colour, string background, int points = 28, int degrees = 0, double blur = 0, int quality = 92)
    {
        Run(
        [
            "-background", background, "-fill", colour, "-font", font, "-pointsize", $"{points}", $"label:{string.Join('\n', lines)}", "-bordercolor", background, "-border", "40",
            "-rotate", $"{degrees}", "-blur", string.Create(CultureInfo.InvariantCulture, $"0x{blur}"), "-quality", $"{quality}", path,
        ]);
        return path;
    }

    /// <summary>Digits of seven segments, a line an offer, with units in small letters of a font beside them as displays print them.</summary>
    public static string InSegments(string path, IReadOnlyList<string> lines, string colour, string background, int gap)
    {
        StringBuilder drawing = new();
        List<string> units = [];
        for (int row = 0; row < lines.Count; row++)
        {
            (int x, int y) = (60, 50 + (row * 110));
            foreach (char letter in lines[row])
            {
                if (char.IsAsciiDigit(letter))
                {
                    Array.ForEach([.. Segments[letter - '0']], segment => drawing.Append(Segment(segment, x, y, gap)));
                    x += 54;
                }
                else if (letter == '.')
                {
                    drawing.Append(CultureInfo.InvariantCulture, $"rectangle {x - 8},{y + 64} {x - 1},{y + 71} ");
                    x += 8;
                }
                else if (letter == '-')
                {
                    drawing.Append(Segment('g', x, y, gap));
                    x += 54;
                }
                else
                {
                    units.AddRange(["-annotate", $"+{x}+{y + 72}", letter.ToString()]);
                    x += letter == ' ' ? 40 : 56;
                }
            }
        }

        Run(
        [
            "-size", $"900x{60 + (lines.Count * 110)}", $"xc:{background}", "-fill", colour, "-draw", drawing.ToString(), "-font", "DejaVu-Sans", "-pointsize", "72", .. units, path,
        ]);
        return path;
    }

    // A digit is 40 wide and 72 high; segments are 8 thick, with a gap where two meet.
    private static string Segment(char segment, int x, int y, int gap)
    {
        (int left, int top, int right, int bottom) = segment switch
        {
            'a' => (gap, 0, 40 - gap, 8),
            'b' => (32, gap, 40, 36 - gap),
            'c' => (32, 36 + gap, 40, 72 - gap),
            'd' => (gap, 64, 40 - gap, 72),
            'e' => (0, 36 + gap, 8, 72 - gap),
            'f' => (0, gap, 8, 36 - gap),
            _ => (gap, 32, 40 - gap, 40),
        };
        return string.Create(CultureInfo.InvariantCulture, $"rectangle {x + left},{y + top} {x + right},{y + bottom} ");
    }

    private static void Run(string[] arguments)
    {
        using Process drawing = Process.Start(Convert, arguments);
        drawing.WaitForExit();
        drawing.ExitCode.Should().Be(0);
    }
}
