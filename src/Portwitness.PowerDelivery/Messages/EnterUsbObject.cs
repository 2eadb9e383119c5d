using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>The object of an Enter_USB message, EUDO (R3.2v1.1, Table 6.49). Any word is kept.</summary>
/// <remarks>The current is coded unlike that of the cable VDO. Bits 26 to 13 as the kernel header has them.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct EnterUsbObject(uint Raw)
{
    private static readonly BitField ModeField = new("USB Mode", 30, 28);
    private static readonly BitField SpeedField = new("Cable Speed", 23, 21);
    private static readonly BitField TypeField = new("Cable Type", 20, 19);
    private static readonly BitField CurrentField = new("Cable Current", 18, 17);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Enter_USB Data Object", 32, "R3.2v1.1 Table 6.49",
        BitField.Reserved(31, 31), ModeField, BitField.Reserved(27, 27), BitField.Flag("USB4 DRD", 26),
        BitField.Flag("USB3 DRD", 25), BitField.Reserved(24, 24), SpeedField, TypeField, CurrentField,
        BitField.Flag("PCIe Support", 16), BitField.Flag("DP Support", 15), BitField.Flag("TBT Support", 14),
        BitField.Flag("Host Present", 13), BitField.Reserved(12, 0));

    /// <summary>0 USB 2.0, 1 USB 3.2, 2 USB4; others reserved.</summary>
    public int ModeCode => (int)ModeField.Get(Raw);

    /// <summary>0 USB 2.0, 1 Gen 1, 2 Gen 2, 3 Gen 3; others reserved or later.</summary>
    public int CableSpeedCode => (int)SpeedField.Get(Raw);

    /// <summary>0 passive, 1 active re-timer, 2 active re-driver, 3 optically isolated.</summary>
    public int CableTypeCode => (int)TypeField.Get(Raw);

    /// <summary>2 3 A, 3 5 A; 0 no VBUS, 1 reserved.</summary>
    public int CableCurrentCode => (int)CurrentField.Get(Raw);

    /// <summary>An object without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static EnterUsbObject Create(int modeCode, int cableSpeedCode, int cableTypeCode, int cableCurrentCode)
    {
        uint word = SpeedField.SetScaled(ModeField.SetScaled(0, modeCode), cableSpeedCode);
        word = TypeField.SetScaled(word, cableTypeCode);
        return new EnterUsbObject(CurrentField.SetScaled(word, cableCurrentCode));
    }
}
