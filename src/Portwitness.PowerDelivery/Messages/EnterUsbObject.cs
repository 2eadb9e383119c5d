using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>The object of an Enter_USB message, EUDO (R3.2v1.1, Table 6.49). Any word is kept.</summary>
/// <remarks>The current is coded unlike that of the cable VDO. Bits 26 to 13 as the kernel header has them.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct EnterUsbObject(uint Raw)
{
    /// <summary>Bit 26.</summary>
    public static readonly BitField Usb4DualRoleField = BitField.Flag("USB4 DRD", 26);

    /// <summary>Bit 25.</summary>
    public static readonly BitField Usb3DualRoleField = BitField.Flag("USB3 DRD", 25);

    /// <summary>Bit 16.</summary>
    public static readonly BitField PcieField = BitField.Flag("PCIe Support", 16);

    /// <summary>Bit 15.</summary>
    public static readonly BitField DpField = BitField.Flag("DP Support", 15);

    /// <summary>Bit 14.</summary>
    public static readonly BitField TbtField = BitField.Flag("TBT Support", 14);

    /// <summary>Bit 13.</summary>
    public static readonly BitField HostPresentField = BitField.Flag("Host Present", 13);

    private static readonly BitField ModeField =
        new BitField("USB Mode", 30, 28).Codes((0, "USB 2.0"), (1, "USB 3.2"), (2, "USB4"));

    private static readonly BitField SpeedField = new BitField("Cable Speed", 23, 21)
        .Codes((0, "USB 2.0"), (1, "USB 3.2 Gen 1"), (2, "Gen 2"), (3, "USB4 Gen 3"));

    private static readonly BitField TypeField = new BitField("Cable Type", 20, 19)
        .Codes((0, "passive"), (1, "active re-timer"), (2, "active re-driver"), (3, "optically isolated"));

    private static readonly BitField CurrentField =
        new BitField("Cable Current", 18, 17).Codes((0, "no VBUS"), (2, "3 A"), (3, "5 A"));

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Enter_USB Data Object", 32, "R3.2v1.1 Table 6.49",
        BitField.Reserved(31, 31), ModeField, BitField.Reserved(27, 27), Usb4DualRoleField, Usb3DualRoleField,
        BitField.Reserved(24, 24), SpeedField, TypeField, CurrentField, PcieField, DpField, TbtField, HostPresentField,
        BitField.Reserved(12, 0));

    /// <summary>0 USB 2.0, 1 USB 3.2, 2 USB4; others reserved.</summary>
    public int ModeCode => (int)ModeField.Get(Raw);

    /// <summary>The sender can be a USB4 host and device.</summary>
    public bool Usb4DualRole => Usb4DualRoleField.IsSet(Raw);

    /// <summary>The sender can be a USB 3.2 host and device.</summary>
    public bool Usb3DualRole => Usb3DualRoleField.IsSet(Raw);

    /// <summary>0 USB 2.0, 1 Gen 1, 2 Gen 2, 3 Gen 3; others reserved or later.</summary>
    public int CableSpeedCode => (int)SpeedField.Get(Raw);

    /// <summary>0 passive, 1 active re-timer, 2 active re-driver, 3 optically isolated.</summary>
    public int CableTypeCode => (int)TypeField.Get(Raw);

    /// <summary>2 3 A, 3 5 A; 0 no VBUS, 1 reserved.</summary>
    public int CableCurrentCode => (int)CurrentField.Get(Raw);

    /// <summary>PCIe tunnelling is supported.</summary>
    public bool Pcie => PcieField.IsSet(Raw);

    /// <summary>DisplayPort tunnelling is supported.</summary>
    public bool Dp => DpField.IsSet(Raw);

    /// <summary>Bit 14, as the kernel header names it.</summary>
    public bool Tbt => TbtField.IsSet(Raw);

    /// <summary>A host is present.</summary>
    public bool HostPresent => HostPresentField.IsSet(Raw);

    /// <summary>An object without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static EnterUsbObject Create(int modeCode, int cableSpeedCode, int cableTypeCode, int cableCurrentCode)
    {
        uint word = SpeedField.SetScaled(ModeField.SetScaled(0, modeCode), cableSpeedCode);
        word = TypeField.SetScaled(word, cableTypeCode);
        return new EnterUsbObject(CurrentField.SetScaled(word, cableCurrentCode));
    }

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public EnterUsbObject With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));
}
