using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>SPR adjustable voltage supply of a source (R3.2v1.1, Table 6.14), since R3.2.</summary>
/// <remarks>There is no voltage field: the range starts at 9 V and ends at 15 V or at 20 V.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct SprAvsSourceSupply(uint Raw)
{
    /// <summary>Bits 27 and 26, Table 6.10.</summary>
    public static readonly BitField PeakCurrentField = 
        new BitField("Peak Current", 27, 26).Means(PowerObjectKinds.PeakCurrent);

    /// <summary>Bits 19 to 10, steps of 10 mA.</summary>
    public static readonly BitField Current15Field =
        new("Maximum Current 9 V to 15 V", 19, 10, FieldUnit.Milliamperes, 10);

    /// <summary>Bits 9 to 0, steps of 10 mA; zero when the range ends at 15 V.</summary>
    public static readonly BitField Current20Field =
        new("Maximum Current 15 V to 20 V", 9, 0, FieldUnit.Milliamperes, 10);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "SPR AVS APDO, source", 32, "R3.2v1.1 Table 6.14",
        PowerObjectKinds.TypeField, PowerObjectKinds.SubtypeField, PeakCurrentField, BitField.Reserved(25, 20),
        Current15Field, Current20Field);

    /// <summary>Code of Table 6.10, 0 to 3.</summary>
    public int PeakCurrentCode => (int)PeakCurrentField.Get(Raw);

    /// <summary>From 9 V to 15 V, 0 to 10.23 A.</summary>
    public Current MaximumCurrentTo15V => Current.FromMilliamperes(Current15Field.GetScaled(Raw));

    /// <summary>From 15 V to 20 V, 0 to 10.23 A; zero when the range ends at 15 V.</summary>
    public Current MaximumCurrentTo20V => Current.FromMilliamperes(Current20Field.GetScaled(Raw));

    /// <summary>9 V.</summary>
    public static Voltage MinimumVoltage => Voltage.FromMillivolts(9000);

    /// <summary>15 V or 20 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(Current20Field.IsSet(Raw) ? 20000 : 15000);

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static SprAvsSourceSupply Create(Current to15V, Current to20V, int peakCurrentCode = 0)
    {
        uint word = PeakCurrentField.SetScaled(PowerObjectKinds.Word(PowerObjectKind.SprAvs), peakCurrentCode);
        word = Current15Field.SetScaled(word, to15V.Milliamperes);
        return new SprAvsSourceSupply(Current20Field.SetScaled(word, to20V.Milliamperes));
    }
}
