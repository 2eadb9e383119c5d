using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>The second Active Cable VDO, since R3.0 (R3.2v1.1, 6.4.4.3.1). Any word is accepted and kept.</summary>
/// <remarks>Bits as the kernel header has them; the standard's table was not compared.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct ActiveCableVdo2(uint Raw)
{
    /// <summary>Bit 11.</summary>
    public static readonly BitField ThroughU3SField =
        BitField.Flag("U3 to U0 transition mode", 11).Codes((0, "direct"), (1, "through U3S"));

    /// <summary>Bit 10.</summary>
    public static readonly BitField OpticalField =
        BitField.Flag("Physical connection", 10).Codes((0, "copper"), (1, "optical"));

    /// <summary>Bit 9.</summary>
    public static readonly BitField RetimerField =
        BitField.Flag("Active element", 9).Codes((0, "re-driver"), (1, "re-timer"));

    /// <summary>Bit 8; set means not supported.</summary>
    public static readonly BitField Usb4NotSupportedField = NotSupported("USB4 Supported", 8);

    /// <summary>Bit 5; set means not supported.</summary>
    public static readonly BitField Usb2NotSupportedField = NotSupported("USB 2.0 Supported", 5);

    /// <summary>Bit 4; set means not supported.</summary>
    public static readonly BitField Usb32NotSupportedField = NotSupported("USB 3.2 Supported", 4);

    /// <summary>Bit 3.</summary>
    public static readonly BitField TwoLanesField =
        BitField.Flag("USB Lanes Supported", 3).Codes((0, "one lane"), (1, "two lanes"));

    /// <summary>Bit 2.</summary>
    public static readonly BitField OpticallyIsolatedField = BitField.Flag("Optically Isolated Active Cable", 2);

    /// <summary>Bit 0.</summary>
    public static readonly BitField Gen2Field =
        BitField.Flag("USB Gen", 0).Codes((0, "Gen 1"), (1, "Gen 2 or higher"));

    private static readonly BitField OperatingField =
        new("Maximum Operating Temperature", 31, 24, FieldUnit.DegreesCelsius);

    private static readonly BitField ShutdownField = new("Shutdown Temperature", 23, 16, FieldUnit.DegreesCelsius);

    private static readonly BitField IdlePowerField = new BitField("U3/CLd Power", 14, 12).Codes(
        (0, "above 10 mW"), (1, "5 mW to 10 mW"), (2, "1 mW to 5 mW"), (3, "0.5 mW to 1 mW"), (4, "0.2 mW to 0.5 mW"),
        (5, "0.05 mW to 0.2 mW"), (6, "below 0.05 mW"));

    private static readonly BitField HopsField = new("USB 2.0 Hub Hops Consumed", 7, 6);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Active Cable VDO 2", 32, "R3.2v1.1 6.4.4.3.1 (kernel header)",
        OperatingField, ShutdownField, BitField.Reserved(15, 15), IdlePowerField, ThroughU3SField, OpticalField,
        RetimerField, Usb4NotSupportedField, HopsField, Usb2NotSupportedField, Usb32NotSupportedField, TwoLanesField,
        OpticallyIsolatedField, BitField.Reserved(1, 1), Gen2Field);

    /// <summary>Degrees Celsius, 0 to 255.</summary>
    public int MaximumOperatingTemperature => (int)OperatingField.Get(Raw);

    /// <summary>Degrees Celsius, 0 to 255.</summary>
    public int ShutdownTemperature => (int)ShutdownField.Get(Raw);

    /// <summary>0 above 10 mW, then less and less to 6; 7 is reserved.</summary>
    public int IdlePowerCode => (int)IdlePowerField.Get(Raw);

    /// <summary>U3 to U0 goes through U3S.</summary>
    public bool ThroughU3S => ThroughU3SField.IsSet(Raw);

    /// <summary>The connection is optical.</summary>
    public bool Optical => OpticalField.IsSet(Raw);

    /// <summary>The active element is a re-timer; otherwise a re-driver.</summary>
    public bool Retimer => RetimerField.IsSet(Raw);

    /// <summary>The cable carries USB4; the bit is clear.</summary>
    public bool Usb4 => !Usb4NotSupportedField.IsSet(Raw);

    /// <summary>Hub hops of USB 2.0 that the cable takes, 0 to 3.</summary>
    public int HubHops => (int)HopsField.Get(Raw);

    /// <summary>The cable carries USB 2.0; the bit is clear.</summary>
    public bool Usb2 => !Usb2NotSupportedField.IsSet(Raw);

    /// <summary>The cable carries USB 3.2; the bit is clear.</summary>
    public bool Usb32 => !Usb32NotSupportedField.IsSet(Raw);

    /// <summary>Two lanes; otherwise one.</summary>
    public bool TwoLanes => TwoLanesField.IsSet(Raw);

    /// <summary>The ends are isolated from each other.</summary>
    public bool OpticallyIsolated => OpticallyIsolatedField.IsSet(Raw);

    /// <summary>Gen 2 or higher; otherwise Gen 1.</summary>
    public bool Gen2 => Gen2Field.IsSet(Raw);

    /// <summary>An object without flags: each "supported" bit is clear, so that USB4, 3.2 and 2.0 are supported.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static ActiveCableVdo2 Create(int operatingTemperature, int shutdownTemperature, int idlePowerCode, int hubHops)
    {
        uint word = ShutdownField.SetScaled(OperatingField.SetScaled(0, operatingTemperature), shutdownTemperature);
        return new ActiveCableVdo2(HopsField.SetScaled(IdlePowerField.SetScaled(word, idlePowerCode), hubHops));
    }

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public ActiveCableVdo2 With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));

    private static BitField NotSupported(string name, int bit) =>
        BitField.Flag(name, bit).Codes((0, "yes"), (1, "no"));
}
