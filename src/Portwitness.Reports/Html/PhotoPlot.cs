using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>The words that were recognised on a photo, each in its box where it stands there; doubtful ones are marked.</summary>
internal static class PhotoPlot
{
    // Fractions of a unit are of no account.
    private const int Margin = 10;

    /// <summary>The words; null for a label that is no photo.</summary>
    /// <param name="label">The label.</param>
    /// <param name="id">What is unique on the page.</param>
    /// <param name="picture">The photo as JPEG, straight as it was read; null when it is not at hand.</param>
    public static XElement? Of(Label label, string id, byte[]? picture)
    {
        if (label.Photo is not { Width: > 0, Height: > 0 } photo)
        {
            return null;
        }

        decimal scale = (Figure.Width - (2 * Margin)) / (decimal)photo.Width;
        int height = (int)Math.Min(2000, (photo.Height * scale) + (2 * Margin));
        return Figure.Of(
            id, "What was recognised on the photo", PhotoWords.Of(label), height,
            [(picture is null ? "area" : "seen", "a word that was recognised"), ("gone", "one that is doubtful: compare it first")],
            picture is null ? null : Picture(picture, (int)(photo.Width * scale), (int)(photo.Height * scale)),
            photo.Words.Select(word => Box(word, scale, onPicture: picture is not null)).ToArray());
    }

    // It is in the page, so that nothing is loaded.
    private static XElement Picture(byte[] picture, int width, int height) => Markup.Element(
        "image", Axes.At("x", Margin), Axes.At("y", Margin), Axes.At("width", width), Axes.At("height", height), new XAttribute("preserveAspectRatio", "none"),
        new XAttribute("href", "data:image/jpeg;base64," + Convert.ToBase64String(picture)));

    private static object[] Box(RecognisedWord word, decimal scale, bool onPicture)
    {
        (int x, int y) = (At(word.Left, scale), At(word.Top, scale));
        XElement box = Markup.Element(
            "rect", Markup.Class(word.Doubtful ? "gone" : onPicture ? "seen" : "area"), Axes.At("x", x), Axes.At("y", y), Axes.At("width", (int)(word.Width * scale)),
            Axes.At("height", (int)(word.Height * scale)), onPicture ? Markup.Element("title", word.Text) : null);
        return onPicture ? [box] :
        [
            box,
            Markup.Element("text", Axes.At("x", x), Axes.At("y", y + (int)(word.Height * scale) - 4), word.Text),
        ];
    }

    private static int At(int pixels, decimal scale) => Margin + (int)(pixels * scale);
}
