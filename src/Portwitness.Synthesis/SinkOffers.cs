using Portwitness.Captures.Offers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>What a sink says that it needs, from text to words.</summary>
internal static class SinkOffers
{
    private static readonly (string Word, BitField Flag)[] Flags =
    [
        ("dual-role-power", FixedSinkSupply.DualRolePowerField),
        ("higher-capability", FixedSinkSupply.HigherCapabilityField),
        ("unconstrained", FixedSinkSupply.UnconstrainedPowerField),
        ("usb-communications", FixedSinkSupply.UsbCommunicationsCapableField),
        ("dual-role-data", FixedSinkSupply.DualRoleDataField),
    ];

    /// <summary>Encodes one need.</summary>
    /// <exception cref="ScriptFault">The text is none, or its amounts cannot be coded.</exception>
    public static uint Encode(string text)
    {
        if (AmountWords.Word(text.Trim()) is { } word)
        {
            return word;
        }

        try
        {
            Offer offer = Offer.Read(text);
            ScriptWords words = new(string.Join(' ', offer.Rest), text);
            uint encoded = Encode(offer, words);
            words.End();
            return encoded;
        }
        catch (OfferFaultException fault)
        {
            throw ScriptFault.Value(fault.Message);
        }
    }

    private static uint Encode(Offer offer, ScriptWords words)
    {
        int swap = offer.Kind == PowerObjectKind.Fixed && words.Take("fast-role-swap")
            ? words.ExpectNumber(3, "a code of 0 to 3")
            : 0;
        uint encoded = ScriptFault.Coding(offer.Text, () => offer.Kind switch
        {
            PowerObjectKind.Fixed => FixedSinkSupply.Create(offer.Minimum, offer.Current, swap).Raw,
            PowerObjectKind.Battery => BatterySinkSupply.Create(offer.Minimum, offer.Maximum, offer.Power).Raw,
            PowerObjectKind.Variable => VariableSinkSupply.Create(offer.Minimum, offer.Maximum, offer.Current).Raw,
            PowerObjectKind.Pps => PpsSinkSupply.Create(offer.Minimum, offer.Maximum, offer.Current).Raw,
            PowerObjectKind.SprAvs => SprAvsSinkSupply.Create(offer.Current, offer.Current20V).Raw,
            _ => EprAvsSinkSupply.Create(offer.Minimum, offer.Maximum, offer.Power).Raw,
        });
        return offer.Kind == PowerObjectKind.Fixed ? FlagWords.Take(words, Flags, encoded) : encoded;
    }
}
