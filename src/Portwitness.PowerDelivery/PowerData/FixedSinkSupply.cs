using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>Fixed supply that a sink asks for (R3.2v1.1, Table 6.17).</summary>
/// <remarks>Bits 29 to 20 mean something in the first object of a list only. Bit 28 is not that of a source.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct FixedSinkSupply(uint Raw)
{
    /// <summary>Bit 29.</summary>
    public static readonly BitField DualRolePowerField = BitField.Flag("Dual-Role Power", 29);

    /// <summary>Bit 28.</summary>
    public static readonly BitField HigherCapabilityField = BitField.Flag("Higher Capability", 28);

    /// <summary>Bit 27.</summary>
    public static readonly BitField UnconstrainedPowerField = BitField.Flag("Unconstrained Power", 27);

    /// <summary>Bit 26.</summary>
    public static readonly BitField UsbCommunicationsCapableField = BitField.Flag("USB Communications Capable", 26);

    /// <summary>Bit 25.</summary>
    public static readonly BitField DualRoleDataField = BitField.Flag("Dual-Role Data", 25);

    /// <summary>Bits 24 to 23.</summary>
    public static readonly BitField FastRoleSwapField = 
        new BitField("Fast Role Swap required USB Type-C Current", 24, 23)
            .Codes((0, "none"), (1, "default USB power"), (2, "1.5 A at 5 V"), (3, "3 A at 5 V"));

    /// <summary>Bits 19 to 10, steps of 50 mV.</summary>
    public static readonly BitField VoltageField = new("Voltage", 19, 10, FieldUnit.Millivolts, 50);

    /// <summary>Bits 9 to 0, steps of 10 mA.</summary>
    public static readonly BitField OperationalCurrentField =
        new("Operational Current", 9, 0, FieldUnit.Milliamperes, 10);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Fixed Supply PDO, sink", 32, "R3.2v1.1 Table 6.17",
        PowerObjectKinds.TypeField, DualRolePowerField, HigherCapabilityField, UnconstrainedPowerField,
        UsbCommunicationsCapableField, DualRoleDataField, FastRoleSwapField, BitField.Reserved(22, 20),
        VoltageField, OperationalCurrentField);

    /// <summary>The port can be source and sink.</summary>
    public bool DualRolePower => DualRolePowerField.IsSet(Raw);

    /// <summary>The sink needs more than vSafe5V for its full function.</summary>
    public bool HigherCapability => HigherCapabilityField.IsSet(Raw);

    /// <summary>Power also comes from outside and is enough to run without the source.</summary>
    public bool UnconstrainedPower => UnconstrainedPowerField.IsSet(Raw);

    /// <summary>The port can carry USB data.</summary>
    public bool UsbCommunicationsCapable => UsbCommunicationsCapableField.IsSet(Raw);

    /// <summary>The port can be host and device.</summary>
    public bool DualRoleData => DualRoleDataField.IsSet(Raw);

    /// <summary>Current needed after a fast role swap: 0 none, 1 default USB power, 2 1.5 A, 3 3 A, all at 5 V.</summary>
    public int FastRoleSwapCode => (int)FastRoleSwapField.Get(Raw);

    /// <summary>0 to 51.15 V.</summary>
    public Voltage Voltage => Voltage.FromMillivolts(VoltageField.GetScaled(Raw));

    /// <summary>0 to 10.23 A.</summary>
    public Current OperationalCurrent => Current.FromMilliamperes(OperationalCurrentField.GetScaled(Raw));

    /// <summary>A fixed supply without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static FixedSinkSupply Create(Voltage voltage, Current operationalCurrent, int fastRoleSwapCode = 0)
    {
        uint word = FastRoleSwapField.SetScaled(PowerObjectKinds.Word(PowerObjectKind.Fixed), fastRoleSwapCode);
        word = VoltageField.SetScaled(word, voltage.Millivolts);
        return new FixedSinkSupply(OperationalCurrentField.SetScaled(word, operationalCurrent.Milliamperes));
    }

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public FixedSinkSupply With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));
}
