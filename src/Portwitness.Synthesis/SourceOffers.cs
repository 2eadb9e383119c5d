using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>A source's offers, from text to words.</summary>
internal static class SourceOffers
{
    private static readonly (string Word, BitField Flag)[] Flags =
    [
        ("dual-role-power", FixedSourceSupply.DualRolePowerField),
        ("usb-suspend", FixedSourceSupply.UsbSuspendSupportedField),
        ("unconstrained", FixedSourceSupply.UnconstrainedPowerField),
        ("usb-communications", FixedSourceSupply.UsbCommunicationsCapableField),
        ("dual-role-data", FixedSourceSupply.DualRoleDataField),
        ("unchunked", FixedSourceSupply.UnchunkedField),
        ("epr", FixedSourceSupply.EprCapableField),
    ];

    /// <summary>Encodes one offer.</summary>
    /// <exception cref="ScriptFault">The text is no offer, or its amounts cannot be coded.</exception>
    public static uint Encode(string text)
    {
        ScriptWords words = new(text);
        uint encoded = words.Try(AmountWords.Word) ?? Encode(Offer.Read(words), words);
        words.End();
        return encoded;
    }

    private static uint Encode(Offer offer, ScriptWords words)
    {
        bool limited = offer.Kind == PowerObjectKind.Pps && words.Take("limited");
        int peak = HasPeakCurrent(offer.Kind) && words.Take("peak") ? words.ExpectNumber(3, "a code of 0 to 3") : 0;
        uint encoded = ScriptFault.Coding(offer.Text, () => offer.Kind switch
        {
            PowerObjectKind.Fixed => FixedSourceSupply.Create(offer.Minimum, offer.Current, peak).Raw,
            PowerObjectKind.Battery => BatterySourceSupply.Create(offer.Minimum, offer.Maximum, offer.Power).Raw,
            PowerObjectKind.Variable => VariableSourceSupply.Create(offer.Minimum, offer.Maximum, offer.Current).Raw,
            PowerObjectKind.Pps => PpsSourceSupply.Create(offer.Minimum, offer.Maximum, offer.Current, limited).Raw,
            PowerObjectKind.SprAvs => SprAvsSourceSupply.Create(offer.Current, offer.Current20V, peak).Raw,
            _ => EprAvsSourceSupply.Create(offer.Minimum, offer.Maximum, offer.Power, peak).Raw,
        });
        return offer.Kind == PowerObjectKind.Fixed ? FlagWords.Take(words, Flags, encoded) : encoded;
    }

    private static bool HasPeakCurrent(PowerObjectKind kind) =>
        kind is PowerObjectKind.Fixed or PowerObjectKind.SprAvs or PowerObjectKind.EprAvs;
}
