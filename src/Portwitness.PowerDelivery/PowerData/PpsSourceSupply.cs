using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>SPR programmable power supply of a source (R3.2v1.1, Table 6.13).</summary>
/// <param name="Raw">The word.</param>
public readonly record struct PpsSourceSupply(uint Raw)
{
    /// <summary>Bit 27.</summary>
    public static readonly BitField PowerLimitedField = BitField.Flag("PPS Power Limited", 27);

    /// <summary>Bits 24 to 17, steps of 100 mV.</summary>
    public static readonly BitField MaximumVoltageField = new("Maximum Voltage", 24, 17, FieldUnit.Millivolts, 100);

    /// <summary>Bits 15 to 8, steps of 100 mV.</summary>
    public static readonly BitField MinimumVoltageField = new("Minimum Voltage", 15, 8, FieldUnit.Millivolts, 100);

    /// <summary>Bits 6 to 0, steps of 50 mA.</summary>
    public static readonly BitField CurrentField = new("Maximum Current", 6, 0, FieldUnit.Milliamperes, 50);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "SPR PPS APDO, source", 32, "R3.2v1.1 Table 6.13",
        PowerObjectKinds.TypeField, PowerObjectKinds.SubtypeField, PowerLimitedField, BitField.Reserved(26, 25),
        MaximumVoltageField, BitField.Reserved(16, 16), MinimumVoltageField, BitField.Reserved(7, 7), CurrentField);

    /// <summary>Above the PDP the source may reduce to constant power (6.4.1.2.4.1.1).</summary>
    public bool PowerLimited => PowerLimitedField.IsSet(Raw);

    /// <summary>0 to 25.5 V.</summary>
    public Voltage MaximumVoltage => Voltage.FromMillivolts(MaximumVoltageField.GetScaled(Raw));

    /// <summary>0 to 25.5 V.</summary>
    public Voltage MinimumVoltage => Voltage.FromMillivolts(MinimumVoltageField.GetScaled(Raw));

    /// <summary>0 to 6.35 A.</summary>
    public Current MaximumCurrent => Current.FromMilliamperes(CurrentField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static PpsSourceSupply Create(Voltage minimum, Voltage maximum, Current current, bool powerLimited = false)
    {
        uint word = PowerLimitedField.SetFlag(PowerObjectKinds.Word(PowerObjectKind.Pps), powerLimited);
        word = MaximumVoltageField.SetScaled(word, maximum.Millivolts);
        word = MinimumVoltageField.SetScaled(word, minimum.Millivolts);
        return new PpsSourceSupply(CurrentField.SetScaled(word, current.Milliamperes));
    }
}
