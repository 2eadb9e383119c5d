using System.Text;
using Portwitness.Captures.Offers;
using Portwitness.Labels.Photos;

namespace Portwitness.Product;

/// <summary>Offers off the photo of a display, by the words that a program recognised on it.</summary>
public static class DisplayPhoto
{
    /// <summary>The offers as a capture; null when the text is no such table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="isCompared">Whether a person has compared what was read with the photo.</param>
    public static byte[]? ToCapture(string table, bool isCompared)
    {
        if (RecognisedText.TryRead(table) is not { } recognised)
        {
            return null;
        }

        StringBuilder text = new();
        int line = 1;
        foreach (RecognisedWord word in recognised.Words)
        {
            for (; line < word.Line; line++)
            {
                text.Append('\n');
            }

            text.Append(' ').Append(word.IsDoubtful && !isCompared ? TypedOfferText.Doubtful.ToString() : "").Append(word.Text);
        }

        return TypedOfferText.PhotoToCapture(text.ToString(), isCompared);
    }
}
