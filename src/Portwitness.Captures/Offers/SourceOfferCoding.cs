using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Captures.Offers;

/// <summary>An offer of a source as its object: the word, and the bits that the text tells.</summary>
/// <param name="Word">Bits that are not told are 0.</param>
/// <param name="Known">Those that are told.</param>
public readonly record struct CodedOffer(uint Word, uint Known);

/// <summary>Makes objects of a source's offers.</summary>
public static class SourceOfferCoding
{
    private const int LastPeakCode = 3;

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

    /// <summary>The object of an offer. Flags count as told where they are written.</summary>
    /// <exception cref="OfferFaultException">A word is not understood, or an amount cannot be coded.</exception>
    public static CodedOffer Encode(Offer offer)
    {
        ArgumentNullException.ThrowIfNull(offer);
        CodedOffer coded;
        try
        {
            coded = Amounts(offer);
        }
        catch (ArgumentOutOfRangeException fault)
        {
            string reason = fault.Message.Split(" (Parameter", 2)[0];
            throw new OfferFaultException($"\"{offer.Text}\" cannot be coded: {reason} (mV, mA or mW; codes and counts as they are)");
        }

        for (int at = 0; at < offer.Rest.Length; at++)
        {
            coded = Flag(offer, coded, ref at);
        }

        return coded;
    }

    private static CodedOffer Amounts(Offer offer)
    {
        uint word = offer.Kind switch
        {
            PowerObjectKind.Fixed => FixedSourceSupply.Create(offer.Minimum, offer.Current).Raw,
            PowerObjectKind.Battery => BatterySourceSupply.Create(offer.Minimum, offer.Maximum, offer.Power).Raw,
            PowerObjectKind.Variable => VariableSourceSupply.Create(offer.Minimum, offer.Maximum, offer.Current).Raw,
            PowerObjectKind.Pps => PpsSourceSupply.Create(offer.Minimum, offer.Maximum, offer.Current).Raw,
            PowerObjectKind.SprAvs => SprAvsSourceSupply.Create(offer.Current, offer.Current20V).Raw,
            _ => EprAvsSourceSupply.Create(offer.Minimum, offer.Maximum, offer.Power).Raw,
        };

        // The kind, and the fields that stand in the text; all but peak current, flags and reserved bits.
        uint known = 0;
        foreach (BitField field in new SourcePowerObject(word).Layout.Fields)
        {
            bool isTold = field.Unit is not (FieldUnit.Flag or FieldUnit.None) || field.High >= 30 || (offer.Kind is not PowerObjectKind.Fixed && field is { High: 29, Low: 28 });
            known |= isTold && !field.IsReserved ? field.Mask : 0;
        }

        return new CodedOffer(word, known);
    }

    private static CodedOffer Flag(Offer offer, CodedOffer coded, ref int at)
    {
        string word = offer.Rest[at];
        if (offer.Kind == PowerObjectKind.Pps && Is(word, "limited"))
        {
            return Set(coded, PpsSourceSupply.PowerLimitedField, 1);
        }

        if (Is(word, "peak") && PeakField(offer.Kind) is { } peak)
        {
            at++;
            return at < offer.Rest.Length && int.TryParse(offer.Rest[at], out int code) && code is >= 0 and <= LastPeakCode
                ? Set(coded, peak, (uint)code)
                : throw new OfferFaultException($"\"{offer.Text}\": \"peak\" is followed by a code of 0 to 3");
        }

        foreach ((string name, BitField flag) in Flags)
        {
            if (offer.Kind == PowerObjectKind.Fixed && Is(word, name))
            {
                return Set(coded, flag, 1);
            }
        }

        throw new OfferFaultException($"\"{word}\" was not understood; \"{offer.Text}\" should end before it");
    }

    private static BitField? PeakField(PowerObjectKind kind) => kind switch
    {
        PowerObjectKind.Fixed => FixedSourceSupply.PeakCurrentField,
        PowerObjectKind.SprAvs or PowerObjectKind.EprAvs => SprAvsSourceSupply.PeakCurrentField,
        _ => null,
    };

    private static CodedOffer Set(CodedOffer coded, BitField field, uint code) =>
        new(field.Set(coded.Word, code), coded.Known | field.Mask);

    private static bool Is(string word, string name) => word.Equals(name, StringComparison.OrdinalIgnoreCase);
}
