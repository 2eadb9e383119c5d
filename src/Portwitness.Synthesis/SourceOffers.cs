using Portwitness.Captures.Offers;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>A source's offers, from text to words.</summary>
internal static class SourceOffers
{
    /// <summary>Encodes one offer.</summary>
    /// <exception cref="ScriptFault">The text is no offer, or its amounts cannot be coded.</exception>
    public static uint Encode(string text)
    {
        if (AmountWords.Word(text.Trim()) is { } word)
        {
            return word;
        }

        try
        {
            return SourceOfferCoding.Encode(Offer.Read(text)).Word;
        }
        catch (OfferFaultException fault)
        {
            throw ScriptFault.Value(fault.Message);
        }
    }
}
