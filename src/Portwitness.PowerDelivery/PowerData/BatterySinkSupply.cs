using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>Battery supply that a sink asks for (R3.2v1.1, Table 6.19). Limits are absolute.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct BatterySinkSupply(uint Raw)
{
    private static readonly BitField PowerField = new("Operational Power", 9, 0, FieldUnit.Milliwatts, 250);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Battery Supply PDO, sink", 32, "R3.2v1.1 Table 6.19",
        PowerObjectKinds.TypeField, BatterySourceSupply.MaximumVoltageField, BatterySourceSupply.MinimumVoltageField,
        PowerField);

    /// <summary>0 to 51.15 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(BatterySourceSupply.MaximumVoltageField.GetScaled(Raw));

    /// <summary>0 to 51.15 V.</summary>
    public Voltage MinimumVoltage => Voltage.FromMillivolts(BatterySourceSupply.MinimumVoltageField.GetScaled(Raw));

    /// <summary>0 to 255.75 W.</summary>
    public Power OperationalPower => Power.FromMilliwatts(PowerField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static BatterySinkSupply Create(Voltage minimum, Voltage maximum, Power power)
    {
        uint word = PowerObjectKinds.Word(PowerObjectKind.Battery);
        word = BatterySourceSupply.MaximumVoltageField.SetScaled(word, maximum.Millivolts);
        word = BatterySourceSupply.MinimumVoltageField.SetScaled(word, minimum.Millivolts);
        return new BatterySinkSupply(PowerField.SetScaled(word, power.Milliwatts));
    }
}
