namespace Portwitness.Captures.Offers;

/// <summary>Typed offers as a capture.</summary>
public static class TypedOfferText
{
    /// <summary>What may stand in front of the first offer, so that a text is taken for offers whatever follows.</summary>
    public const string Heading = "offers:";

    /// <summary>A text as a capture of typed offers; lines and columns of faults are those of the text.</summary>
    public static byte[] ToCapture(string text) => System.Text.Encoding.UTF8.GetBytes(Heading + text);
}
