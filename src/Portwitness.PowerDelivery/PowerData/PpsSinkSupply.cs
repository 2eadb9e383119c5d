using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>SPR programmable power supply that a sink asks for (R3.2v1.1, Table 6.20), since R3.0.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct PpsSinkSupply(uint Raw)
{
    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "SPR PPS APDO, sink", 32, "R3.2v1.1 Table 6.20",
        PowerObjectKinds.TypeField, PowerObjectKinds.SubtypeField, BitField.Reserved(27, 25),
        PpsSourceSupply.MaximumVoltageField, BitField.Reserved(16, 16), PpsSourceSupply.MinimumVoltageField,
        BitField.Reserved(7, 7), PpsSourceSupply.CurrentField);

    /// <summary>0 to 25.5 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(PpsSourceSupply.MaximumVoltageField.GetScaled(Raw));

    /// <summary>0 to 25.5 V.</summary>
    public Voltage MinimumVoltage => Voltage.FromMillivolts(PpsSourceSupply.MinimumVoltageField.GetScaled(Raw));

    /// <summary>0 to 6.35 A.</summary>
    public Current MaximumCurrent => Current.FromMilliamperes(PpsSourceSupply.CurrentField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static PpsSinkSupply Create(Voltage minimum, Voltage maximum, Current current)
    {
        uint word = PowerObjectKinds.Word(PowerObjectKind.Pps);
        word = PpsSourceSupply.MaximumVoltageField.SetScaled(word, maximum.Millivolts);
        word = PpsSourceSupply.MinimumVoltageField.SetScaled(word, minimum.Millivolts);
        return new PpsSinkSupply(PpsSourceSupply.CurrentField.SetScaled(word, current.Milliamperes));
    }
}
