using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>EPR adjustable voltage supply of a source (R3.2v1.1, Table 6.15), since R3.1.</summary>
/// <remarks>There is no current field: the current is the smaller of 5 A and PDP / voltage (6.4.2.8).</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct EprAvsSourceSupply(uint Raw)
{
    /// <summary>Bits 25 to 17, steps of 100 mV.</summary>
    public static readonly BitField MaximumVoltageField = new("Maximum Voltage", 25, 17, FieldUnit.Millivolts, 100);

    /// <summary>Bits 15 to 8, steps of 100 mV.</summary>
    public static readonly BitField MinimumVoltageField = new("Minimum Voltage", 15, 8, FieldUnit.Millivolts, 100);

    /// <summary>Bits 7 to 0, steps of 1 W.</summary>
    public static readonly BitField PdpField = new("PDP", 7, 0, FieldUnit.Milliwatts, 1000);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "EPR AVS APDO, source", 32, "R3.2v1.1 Table 6.15",
        PowerObjectKinds.TypeField, PowerObjectKinds.SubtypeField, SprAvsSourceSupply.PeakCurrentField,
        MaximumVoltageField, BitField.Reserved(16, 16), MinimumVoltageField, PdpField);

    /// <summary>Code of Table 6.16, 0 to 3.</summary>
    public int PeakCurrentCode => (int)SprAvsSourceSupply.PeakCurrentField.Get(Raw);

    /// <summary>0 to 51.1 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(MaximumVoltageField.GetScaled(Raw));

    /// <summary>0 to 25.5 V.</summary>
    public Voltage MinimumVoltage => Voltage.FromMillivolts(MinimumVoltageField.GetScaled(Raw));

    /// <summary>0 to 255 W, whole watts.</summary>
    public Power Pdp => Power.FromMilliwatts(PdpField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static EprAvsSourceSupply Create(Voltage minimum, Voltage maximum, Power pdp, int peakCurrentCode = 0)
    {
        uint word = PowerObjectKinds.Word(PowerObjectKind.EprAvs);
        word = SprAvsSourceSupply.PeakCurrentField.SetScaled(word, peakCurrentCode);
        word = MaximumVoltageField.SetScaled(word, maximum.Millivolts);
        word = MinimumVoltageField.SetScaled(word, minimum.Millivolts);
        return new EprAvsSourceSupply(PdpField.SetScaled(word, pdp.Milliwatts));
    }
}
