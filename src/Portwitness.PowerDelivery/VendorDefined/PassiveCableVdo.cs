using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>Passive Cable VDO of R3.x (R3.2v1.1, Table 6.41). Any word is accepted and kept.</summary>
/// <remarks>
/// An answer of structured VDM version 1.0 has another layout, <see cref="CableVdoR20"/>: its bits 10, 9 and 17 say
/// nothing about voltage or EPR. Ask <see cref="IsLayoutOf"/> first.
/// </remarks>
/// <param name="Raw">The word.</param>
public readonly record struct PassiveCableVdo(uint Raw)
{
    /// <summary>Bit 17, since R3.1.</summary>
    public static readonly BitField EprCapableField = CableFields.EprCapable;

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Passive Cable VDO", 32, "R3.2v1.1 Table 6.41",
        CableFields.Hardware, CableFields.Firmware, CableFields.Version, BitField.Reserved(20, 20), CableFields.Plug,
        CableFields.EprCapable, CableFields.Latency, CableFields.Termination, CableFields.MaximumVbus,
        BitField.Reserved(8, 7), CableFields.Current, BitField.Reserved(4, 3), CableFields.Speed);

    /// <summary>HW Version, 0 to 15.</summary>
    public int HardwareVersion => (int)CableFields.Hardware.Get(Raw);

    /// <summary>Firmware Version, 0 to 15.</summary>
    public int FirmwareVersion => (int)CableFields.Firmware.Get(Raw);

    /// <summary>VDO Version, 0 to 7; 0 is version 1.0.</summary>
    public int VdoVersionCode => (int)CableFields.Version.Get(Raw);

    /// <summary>2 USB Type-C plug, 3 captive; others reserved.</summary>
    public int PlugCode => (int)CableFields.Plug.Get(Raw);

    /// <summary>The cable is made for EPR.</summary>
    public bool EprCapable => CableFields.EprCapable.IsSet(Raw);

    /// <summary>1 below 10 ns (about 1 m), then 10 ns a step to 7; 8 is above 70 ns; others reserved.</summary>
    public int LatencyCode => (int)CableFields.Latency.Get(Raw);

    /// <summary>0 VCONN not required, 1 required; others reserved.</summary>
    public int TerminationCode => (int)CableFields.Termination.Get(Raw);

    /// <summary>0 20 V, 3 50 V; 1 and 2 are deprecated and count as 20 V.</summary>
    public int MaximumVbusCode => (int)CableFields.MaximumVbus.Get(Raw);

    /// <summary>20 V or 50 V, nominal.</summary>
    public Voltage MaximumVbus => CableFields.MaximumVbusOf(Raw);

    /// <summary>1 3 A, 2 5 A; 0 and 3 are invalid.</summary>
    public int CurrentCode => (int)CableFields.Current.Get(Raw);

    /// <summary>3 A or 5 A; null for an invalid code.</summary>
    public Current? MaximumCurrent => CableFields.CurrentOf(Raw);

    /// <summary>0 USB 2.0, 1 USB 3.2 Gen 1, 2 Gen 2, 3 USB4 Gen 3, 4 USB4 Gen 4; others reserved.</summary>
    public int SpeedCode => (int)CableFields.Speed.Get(Raw);

    /// <summary>Whether an answer with this header lays its cable VDOs out as R3.x does: not version 1.0.</summary>
    public static bool IsLayoutOf(VdmHeader answer) => answer.Structured && answer.MajorVersionCode != 0;

    /// <summary>A cable without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A code does not fit its field.</exception>
    public static PassiveCableVdo Create(CableCodes codes) => new(CableFields.Word(codes));

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public PassiveCableVdo With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));
}
