using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>Fixed supply of a source (R3.2v1.1, Table 6.9).</summary>
/// <remarks>The flags, bits 29 to 23, mean something in the first object of a list only.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct FixedSourceSupply(uint Raw)
{
    /// <summary>Bit 29.</summary>
    public static readonly BitField DualRolePowerField = BitField.Flag("Dual-Role Power", 29);

    /// <summary>Bit 28.</summary>
    public static readonly BitField UsbSuspendSupportedField = BitField.Flag("USB Suspend Supported", 28);

    /// <summary>Bit 27.</summary>
    public static readonly BitField UnconstrainedPowerField = BitField.Flag("Unconstrained Power", 27);

    /// <summary>Bit 26.</summary>
    public static readonly BitField UsbCommunicationsCapableField = BitField.Flag("USB Communications Capable", 26);

    /// <summary>Bit 25.</summary>
    public static readonly BitField DualRoleDataField = BitField.Flag("Dual-Role Data", 25);

    /// <summary>Bit 24, since R3.0.</summary>
    public static readonly BitField UnchunkedField = BitField.Flag("Unchunked Extended Messages Supported", 24);

    /// <summary>Bit 23, since R3.1.</summary>
    public static readonly BitField EprCapableField = BitField.Flag("EPR Capable", 23);

    /// <summary>Bits 21 to 20, Table 6.10.</summary>
    public static readonly BitField PeakCurrentField =
        new BitField("Peak Current", 21, 20).Means(PowerObjectKinds.PeakCurrent);

    /// <summary>Bits 19 to 10, steps of 50 mV.</summary>
    public static readonly BitField VoltageField = new("Voltage", 19, 10, FieldUnit.Millivolts, 50);

    /// <summary>Bits 9 to 0, steps of 10 mA.</summary>
    public static readonly BitField MaximumCurrentField = new("Maximum Current", 9, 0, FieldUnit.Milliamperes, 10);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Fixed Supply PDO, source", 32, "R3.2v1.1 Table 6.9",
        PowerObjectKinds.TypeField, DualRolePowerField, UsbSuspendSupportedField, UnconstrainedPowerField,
        UsbCommunicationsCapableField, DualRoleDataField, UnchunkedField, EprCapableField, BitField.Reserved(22, 22),
        PeakCurrentField, VoltageField, MaximumCurrentField);

    /// <summary>The port can be source and sink.</summary>
    public bool DualRolePower => DualRolePowerField.IsSet(Raw);

    /// <summary>The source follows the USB suspend rules.</summary>
    public bool UsbSuspendSupported => UsbSuspendSupportedField.IsSet(Raw);

    /// <summary>Power comes from outside and is enough to run and charge at once.</summary>
    public bool UnconstrainedPower => UnconstrainedPowerField.IsSet(Raw);

    /// <summary>The port can carry USB data.</summary>
    public bool UsbCommunicationsCapable => UsbCommunicationsCapableField.IsSet(Raw);

    /// <summary>The port can be host and device.</summary>
    public bool DualRoleData => DualRoleDataField.IsSet(Raw);

    /// <summary>Extended messages may be sent whole.</summary>
    public bool UnchunkedExtendedMessagesSupported => UnchunkedField.IsSet(Raw);

    /// <summary>The source is designed for EPR mode.</summary>
    public bool EprCapable => EprCapableField.IsSet(Raw);

    /// <summary>Code of Table 6.10, 0 to 3.</summary>
    public int PeakCurrentCode => (int)PeakCurrentField.Get(Raw);

    /// <summary>0 to 51.15 V.</summary>
    public Voltage Voltage => Voltage.FromMillivolts(VoltageField.GetScaled(Raw));

    /// <summary>0 to 10.23 A.</summary>
    public Current MaximumCurrent => Current.FromMilliamperes(MaximumCurrentField.GetScaled(Raw));

    /// <summary>A fixed supply without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static FixedSourceSupply Create(Voltage voltage, Current maximumCurrent, int peakCurrentCode = 0)
    {
        uint word = PowerObjectKinds.Word(PowerObjectKind.Fixed);
        word = PeakCurrentField.SetScaled(word, peakCurrentCode);
        word = VoltageField.SetScaled(word, voltage.Millivolts);
        return new FixedSourceSupply(MaximumCurrentField.SetScaled(word, maximumCurrent.Milliamperes));
    }

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public FixedSourceSupply With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));
}
