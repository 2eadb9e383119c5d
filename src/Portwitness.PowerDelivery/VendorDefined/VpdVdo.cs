using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>VPD VDO of a VCONN-powered device, since R3.0 (R3.2v1.1, 6.4.4.3.1). Any word is accepted and kept.</summary>
/// <remarks>Bits as the kernel header has them; the standard's table was not compared. Impedances stay codes.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct VpdVdo(uint Raw)
{
    /// <summary>Bit 14.</summary>
    public static readonly BitField ChargeThrough5AField =
        BitField.Flag("Charge Through Current Support", 14).Codes((0, "3 A"), (1, "5 A"));

    /// <summary>Bit 0.</summary>
    public static readonly BitField ChargeThroughField = BitField.Flag("Charge Through Support", 0);

    private static readonly BitField MaximumVbusField = CableFields.MaximumVbus with { High = 16, Low = 15 };
    private static readonly BitField VbusImpedanceField = new("VBUS Impedance", 12, 7);
    private static readonly BitField GroundImpedanceField = new("Ground Impedance", 6, 1);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "VPD VDO", 32, "R3.2v1.1 6.4.4.3.1 (kernel header)",
        CableFields.Hardware, CableFields.Firmware, CableFields.Version, BitField.Reserved(20, 17), MaximumVbusField,
        ChargeThrough5AField, BitField.Reserved(13, 13), VbusImpedanceField, GroundImpedanceField, ChargeThroughField);

    /// <summary>HW Version, 0 to 15.</summary>
    public int HardwareVersion => (int)CableFields.Hardware.Get(Raw);

    /// <summary>Firmware Version, 0 to 15.</summary>
    public int FirmwareVersion => (int)CableFields.Firmware.Get(Raw);

    /// <summary>VDO Version, 0 to 7.</summary>
    public int VdoVersionCode => (int)CableFields.Version.Get(Raw);

    /// <summary>0 20 V, 3 50 V; 1 and 2 are deprecated.</summary>
    public int MaximumVbusCode => (int)MaximumVbusField.Get(Raw);

    /// <summary>What is charged through: 5 A or 3 A; null without <see cref="ChargeThrough"/>.</summary>
    public Current? ChargeThroughCurrent => !ChargeThrough ? null
        : ChargeThrough5AField.IsSet(Raw) ? Limits.Electrical.ConnectorMaximum : Limits.Electrical.UnmarkedCableMaximum;

    /// <summary>VBUS Impedance, 0 to 63.</summary>
    public int VbusImpedanceCode => (int)VbusImpedanceField.Get(Raw);

    /// <summary>Ground Impedance, 0 to 63.</summary>
    public int GroundImpedanceCode => (int)GroundImpedanceField.Get(Raw);

    /// <summary>The device can be charged through.</summary>
    public bool ChargeThrough => ChargeThroughField.IsSet(Raw);

    /// <summary>An object without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static VpdVdo Create(
        int maximumVbusCode, int vbusImpedanceCode, int groundImpedanceCode, int hardwareVersion = 0,
        int firmwareVersion = 0, int vdoVersionCode = 0)
    {
        uint word = CableFields.Firmware.SetScaled(CableFields.Hardware.SetScaled(0, hardwareVersion), firmwareVersion);
        word = MaximumVbusField.SetScaled(CableFields.Version.SetScaled(word, vdoVersionCode), maximumVbusCode);
        word = VbusImpedanceField.SetScaled(word, vbusImpedanceCode);
        return new VpdVdo(GroundImpedanceField.SetScaled(word, groundImpedanceCode));
    }

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public VpdVdo With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));
}
