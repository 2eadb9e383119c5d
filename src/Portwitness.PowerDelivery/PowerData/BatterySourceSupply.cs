using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>Battery supply of a source (R3.2v1.1, Table 6.12). Limits are absolute, tolerance included.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct BatterySourceSupply(uint Raw)
{
    /// <summary>Bits 29 to 20, steps of 50 mV.</summary>
    public static readonly BitField MaximumVoltageField = new("Maximum Voltage", 29, 20, FieldUnit.Millivolts, 50);

    /// <summary>Bits 19 to 10, steps of 50 mV.</summary>
    public static readonly BitField MinimumVoltageField = new("Minimum Voltage", 19, 10, FieldUnit.Millivolts, 50);

    /// <summary>Bits 9 to 0, steps of 250 mW.</summary>
    public static readonly BitField PowerField = new("Maximum Allowable Power", 9, 0, FieldUnit.Milliwatts, 250);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Battery Supply PDO, source", 32, "R3.2v1.1 Table 6.12",
        PowerObjectKinds.TypeField, MaximumVoltageField, MinimumVoltageField, PowerField);

    /// <summary>0 to 51.15 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(MaximumVoltageField.GetScaled(Raw));

    /// <summary>0 to 51.15 V.</summary>
    public Voltage MinimumVoltage => Voltage.FromMillivolts(MinimumVoltageField.GetScaled(Raw));

    /// <summary>0 to 255.75 W.</summary>
    public Power MaximumPower => Power.FromMilliwatts(PowerField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static BatterySourceSupply Create(Voltage minimum, Voltage maximum, Power power)
    {
        uint word = MaximumVoltageField.SetScaled(PowerObjectKinds.Word(PowerObjectKind.Battery), maximum.Millivolts);
        word = MinimumVoltageField.SetScaled(word, minimum.Millivolts);
        return new BatterySourceSupply(PowerField.SetScaled(word, power.Milliwatts));
    }
}
