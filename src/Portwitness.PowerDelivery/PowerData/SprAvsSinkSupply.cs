using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>SPR adjustable voltage supply that a sink asks for (R3.2v1.1, Table 6.21), since R3.2.</summary>
/// <remarks>There is no voltage field: the range starts at 9 V and ends at 15 V or at 20 V.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct SprAvsSinkSupply(uint Raw)
{
    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "SPR AVS APDO, sink", 32, "R3.2v1.1 Table 6.21",
        PowerObjectKinds.TypeField, PowerObjectKinds.SubtypeField, BitField.Reserved(27, 20),
        SprAvsSourceSupply.Current15Field, SprAvsSourceSupply.Current20Field);

    /// <summary>From 9 V to 15 V, 0 to 10.23 A.</summary>
    public Current MaximumCurrentTo15V => Current.FromMilliamperes(SprAvsSourceSupply.Current15Field.GetScaled(Raw));

    /// <summary>From 15 V to 20 V, 0 to 10.23 A; zero when the range ends at 15 V.</summary>
    public Current MaximumCurrentTo20V => Current.FromMilliamperes(SprAvsSourceSupply.Current20Field.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static SprAvsSinkSupply Create(Current to15V, Current to20V)
    {
        uint word = PowerObjectKinds.Word(PowerObjectKind.SprAvs);
        word = SprAvsSourceSupply.Current15Field.SetScaled(word, to15V.Milliamperes);
        return new SprAvsSinkSupply(SprAvsSourceSupply.Current20Field.SetScaled(word, to20V.Milliamperes));
    }
}
