using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>Variable, non-battery supply that a sink asks for (R3.2v1.1, Table 6.18). Limits are absolute.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct VariableSinkSupply(uint Raw)
{
    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Variable Supply PDO, sink", 32, "R3.2v1.1 Table 6.18",
        PowerObjectKinds.TypeField, BatterySourceSupply.MaximumVoltageField, BatterySourceSupply.MinimumVoltageField,
        FixedSinkSupply.OperationalCurrentField);

    /// <summary>0 to 51.15 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(BatterySourceSupply.MaximumVoltageField.GetScaled(Raw));

    /// <summary>0 to 51.15 V.</summary>
    public Voltage MinimumVoltage => Voltage.FromMillivolts(BatterySourceSupply.MinimumVoltageField.GetScaled(Raw));

    /// <summary>0 to 10.23 A.</summary>
    public Current OperationalCurrent =>
        Current.FromMilliamperes(FixedSinkSupply.OperationalCurrentField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static VariableSinkSupply Create(Voltage minimum, Voltage maximum, Current current)
    {
        uint word = PowerObjectKinds.Word(PowerObjectKind.Variable);
        word = BatterySourceSupply.MaximumVoltageField.SetScaled(word, maximum.Millivolts);
        word = BatterySourceSupply.MinimumVoltageField.SetScaled(word, minimum.Millivolts);
        return new VariableSinkSupply(FixedSinkSupply.OperationalCurrentField.SetScaled(word, current.Milliamperes));
    }
}
