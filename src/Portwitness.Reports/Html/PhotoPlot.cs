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
    public static XElement? Of(Label label, string id)
    {
        if (label.Photo is not { Width: > 0, Height: > 0 } photo)
        {
            return null;
        }

        decimal scale = (Figure.Width - (2 * Margin)) / (decimal)photo.Width;
        int height = (int)Math.Min(2000, (photo.Height * scale) + (2 * Margin));
        return Figure.Of(
            id, "What was recognised on the photo", PhotoWords.Of(label), height,
            [("area", "a word that was recognised"), ("gone", "one that is doubtful: compare it first")],
            photo.Words.Select(word => Box(word, scale)).ToArray());
    }

    private static object[] Box(RecognisedWord word, decimal scale)
    {
        (int x, int y) = (At(word.Left, scale), At(word.Top, scale));
        return
        [
            Markup.Element(
                "rect", Markup.Class(word.Doubtful ? "gone" : "area"), Axes.At("x", x), Axes.At("y", y), Axes.At("width", (int)(word.Width * scale)),
                Axes.At("height", (int)(word.Height * scale))),
            Markup.Element("text", Axes.At("x", x), Axes.At("y", y + (int)(word.Height * scale) - 4), word.Text),
        ];
    }

    private static int At(int pixels, decimal scale) => Margin + (int)(pixels * scale);
}
