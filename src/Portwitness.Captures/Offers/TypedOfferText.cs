using System.Text;

namespace Portwitness.Captures.Offers;

/// <summary>Typed offers as a capture.</summary>
public static class TypedOfferText
{
    /// <summary>What may stand in front of the first offer, so that a text is taken for offers whatever follows.</summary>
    public const string Heading = "offers:";

    /// <summary>The same, and says that nothing was left out.</summary>
    public const string WholeHeading = "all offers:";

    /// <summary>In front of what was recognised on a photo, and nobody has compared with it.</summary>
    internal const string PhotoHeading = "offers on a photo:";

    /// <summary>In front of what was recognised on a photo, and somebody has compared with it.</summary>
    internal const string ComparedPhotoHeading = "offers on a compared photo:";

    /// <summary>In front of a word that was recognised with little certainty.</summary>
    public const char Doubtful = '\u00BF';

    /// <summary>What was recognised on a photo, as a capture of offers; doubtful words have <see cref="Doubtful"/> in front.</summary>
    /// <param name="text">The words, in the lines of the photo.</param>
    /// <param name="isCompared">Whether a person has compared what was read with the photo.</param>
    public static byte[] PhotoToCapture(string text, bool isCompared) =>
        Encoding.UTF8.GetBytes((isCompared ? ComparedPhotoHeading : PhotoHeading) + text.Replace('#', ' '));

    /// <summary>A text as a capture of typed offers; lines and columns of faults are those of the text.</summary>
    /// <param name="text">The offers.</param>
    /// <param name="isWhole">Whether somebody says that these are all.</param>
    public static byte[] ToCapture(string text, bool isWhole = false)
    {
        ArgumentNullException.ThrowIfNull(text);
        bool hasHeading = text.AsSpan().TrimStart().StartsWith(WholeHeading, StringComparison.OrdinalIgnoreCase);
        return Encoding.UTF8.GetBytes((hasHeading ? "" : isWhole ? WholeHeading : Heading) + text);
    }
}
