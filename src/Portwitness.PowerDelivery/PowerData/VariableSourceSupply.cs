using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>Variable, non-battery supply of a source (R3.2v1.1, Table 6.11). Limits are absolute.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct VariableSourceSupply(uint Raw)
{
    /// <summary>Bits 9 to 0, steps of 10 mA.</summary>
    public static readonly BitField CurrentField = new("Maximum Current", 9, 0, FieldUnit.Milliamperes, 10);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Variable Supply PDO, source", 32, "R3.2v1.1 Table 6.11",
        PowerObjectKinds.TypeField, BatterySourceSupply.MaximumVoltageField, BatterySourceSupply.MinimumVoltageField,
        CurrentField);

    /// <summary>0 to 51.15 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(BatterySourceSupply.MaximumVoltageField.GetScaled(Raw));

    /// <summary>0 to 51.15 V.</summary>
    public Voltage MinimumVoltage => Voltage.FromMillivolts(BatterySourceSupply.MinimumVoltageField.GetScaled(Raw));

    /// <summary>0 to 10.23 A.</summary>
    public Current MaximumCurrent => Current.FromMilliamperes(CurrentField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static VariableSourceSupply Create(Voltage minimum, Voltage maximum, Current current)
    {
        uint word = PowerObjectKinds.Word(PowerObjectKind.Variable);
        word = BatterySourceSupply.MaximumVoltageField.SetScaled(word, maximum.Millivolts);
        word = BatterySourceSupply.MinimumVoltageField.SetScaled(word, minimum.Millivolts);
        return new VariableSourceSupply(CurrentField.SetScaled(word, current.Milliamperes));
    }
}
