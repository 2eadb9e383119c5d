using System.Text;

namespace Portwitness.Captures.Offers;

/// <summary>Typed offers as a capture.</summary>
public static class TypedOfferText
{
    /// <summary>What may stand in front of the first offer, so that a text is taken for offers whatever follows.</summary>
    public const string Heading = "offers:";

    /// <summary>The same, and says that nothing was left out.</summary>
    public const string WholeHeading = "all offers:";

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
