using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>EPR adjustable voltage supply that a sink asks for (R3.2v1.1, Table 6.22), since R3.1.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct EprAvsSinkSupply(uint Raw)
{
    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "EPR AVS APDO, sink", 32, "R3.2v1.1 Table 6.22",
        PowerObjectKinds.TypeField, PowerObjectKinds.SubtypeField, BitField.Reserved(27, 26),
        EprAvsSourceSupply.MaximumVoltageField, BitField.Reserved(16, 16), EprAvsSourceSupply.MinimumVoltageField,
        EprAvsSourceSupply.PdpField);

    /// <summary>0 to 51.1 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(EprAvsSourceSupply.MaximumVoltageField.GetScaled(Raw));

    /// <summary>0 to 25.5 V.</summary>
    public Voltage MinimumVoltage => Voltage.FromMillivolts(EprAvsSourceSupply.MinimumVoltageField.GetScaled(Raw));

    /// <summary>0 to 255 W, whole watts.</summary>
    public Power Pdp => Power.FromMilliwatts(EprAvsSourceSupply.PdpField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static EprAvsSinkSupply Create(Voltage minimum, Voltage maximum, Power pdp)
    {
        uint word = PowerObjectKinds.Word(PowerObjectKind.EprAvs);
        word = EprAvsSourceSupply.MaximumVoltageField.SetScaled(word, maximum.Millivolts);
        word = EprAvsSourceSupply.MinimumVoltageField.SetScaled(word, minimum.Millivolts);
        return new EprAvsSinkSupply(EprAvsSourceSupply.PdpField.SetScaled(word, pdp.Milliwatts));
    }
}
