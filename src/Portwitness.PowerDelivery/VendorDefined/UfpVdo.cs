using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>UFP VDO of a hub or peripheral, since R3.0 (R3.2v1.1, 6.4.4.3.1). Any word is accepted and kept.</summary>
/// <remarks>Bits as the kernel header has them; the standard's table was not compared.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct UfpVdo(uint Raw)
{
    /// <summary>Bit 7.</summary>
    public static readonly BitField VconnRequiredField = BitField.Flag("VCONN Required", 7);

    /// <summary>Bit 6; set means not required.</summary>
    public static readonly BitField VbusNotRequiredField =
        BitField.Flag("VBUS Required", 6).Codes((0, "yes"), (1, "no"));

    private static readonly BitField VersionField = new("UFP VDO Version", 31, 29);

    private static readonly BitField CapabilityField = new BitField("Device Capability", 27, 24).Means(raw =>
        CapabilityBits.Read(raw, "USB 2.0", "USB 2.0 Billboard only", "USB 3.2", "USB4"));

    private static readonly BitField ConnectorField =
        new BitField("Connector Type", 23, 22).Codes((0, "not told"), (2, "receptacle"), (3, "captive plug"));

    private static readonly BitField VconnPowerField = new BitField("VCONN Power", 10, 8).Codes(
        (0, "1 W"), (1, "1.5 W"), (2, "2 W"), (3, "3 W"), (4, "4 W"), (5, "5 W"), (6, "6 W"));

    private static readonly BitField ModesField = new BitField("Alternate Modes", 5, 3).Means(raw =>
        CapabilityBits.Read(raw, "TBT3", "modes that reconfigure the pins", "modes that do not"));

    private static readonly BitField SpeedField = new BitField("USB Highest Speed", 2, 0)
        .Codes((0, "USB 2.0"), (1, "USB 3.2 Gen 1"), (2, "Gen 2"), (3, "USB4 Gen 3"), (4, "USB4 Gen 4 (from memory)"));

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "UFP VDO", 32, "R3.2v1.1 6.4.4.3.1 (kernel header)",
        VersionField, BitField.Reserved(28, 28), CapabilityField, ConnectorField, BitField.Reserved(21, 11),
        VconnPowerField, VconnRequiredField, VbusNotRequiredField, ModesField, SpeedField);

    /// <summary>UFP VDO Version, 0 to 7.</summary>
    public int VersionCode => (int)VersionField.Get(Raw);

    /// <summary>Bit 0 USB 2.0, 1 USB 2.0 Billboard only, 2 USB 3.2, 3 USB4.</summary>
    public int DeviceCapabilityBits => (int)CapabilityField.Get(Raw);

    /// <summary>2 receptacle, 3 captive plug; since R3.1 the ID header tells it.</summary>
    public int ConnectorCode => (int)ConnectorField.Get(Raw);

    /// <summary>0 1 W, 1 1.5 W, then 2 W to 6 W; means something with <see cref="VconnRequired"/> only.</summary>
    public int VconnPowerCode => (int)VconnPowerField.Get(Raw);

    /// <summary>The product needs VCONN to be powered.</summary>
    public bool VconnRequired => VconnRequiredField.IsSet(Raw);

    /// <summary>The product needs VBUS to be powered; the bit is clear.</summary>
    public bool VbusRequired => !VbusNotRequiredField.IsSet(Raw);

    /// <summary>Bit 0 TBT3, 1 modes that reconfigure the pins, 2 modes that do not.</summary>
    public int AlternateModeBits => (int)ModesField.Get(Raw);

    /// <summary>0 USB 2.0, 1 USB 3.2 Gen 1, 2 Gen 2, 3 USB4 Gen 3.</summary>
    public int SpeedCode => (int)SpeedField.Get(Raw);

    /// <summary>An object without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static UfpVdo Create(
        int versionCode, int deviceCapabilityBits, int connectorCode, int vconnPowerCode, int alternateModeBits, int speedCode)
    {
        uint word = CapabilityField.SetScaled(VersionField.SetScaled(0, versionCode), deviceCapabilityBits);
        word = VconnPowerField.SetScaled(ConnectorField.SetScaled(word, connectorCode), vconnPowerCode);
        return new UfpVdo(SpeedField.SetScaled(ModesField.SetScaled(word, alternateModeBits), speedCode));
    }

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public UfpVdo With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));
}
