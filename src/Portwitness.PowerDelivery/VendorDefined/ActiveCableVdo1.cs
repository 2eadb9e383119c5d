using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>The first Active Cable VDO of R3.x (R3.2v1.1, Table 6.42). Any word is accepted and kept.</summary>
/// <remarks>As with the passive cable, an answer of structured VDM version 1.0 has another layout.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct ActiveCableVdo1(uint Raw)
{
    /// <summary>Bit 17, since R3.1.</summary>
    public static readonly BitField EprCapableField = CableFields.EprCapable;

    /// <summary>Bit 8.</summary>
    public static readonly BitField SbuNotSupportedField = BitField.Flag("SBU not supported", 8);

    /// <summary>Bit 7.</summary>
    public static readonly BitField SbuActiveField = BitField.Flag("SBU active", 7);

    /// <summary>Bit 4.</summary>
    public static readonly BitField VbusThroughCableField = CableFields.VbusThrough;

    /// <summary>Bit 3.</summary>
    public static readonly BitField SopDoublePrimeField = CableFields.SopDoublePrime;

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Active Cable VDO 1", 32, "R3.2v1.1 Table 6.42",
        CableFields.Hardware, CableFields.Firmware, CableFields.Version, BitField.Reserved(20, 20), CableFields.Plug,
        CableFields.EprCapable, CableFields.Latency, CableFields.Termination, CableFields.MaximumVbus,
        SbuNotSupportedField, SbuActiveField, CableFields.Current, CableFields.VbusThrough, CableFields.SopDoublePrime,
        CableFields.Speed);

    /// <summary>HW Version, 0 to 15.</summary>
    public int HardwareVersion => (int)CableFields.Hardware.Get(Raw);

    /// <summary>Firmware Version, 0 to 15.</summary>
    public int FirmwareVersion => (int)CableFields.Firmware.Get(Raw);

    /// <summary>VDO Version, 0 to 7.</summary>
    public int VdoVersionCode => (int)CableFields.Version.Get(Raw);

    /// <summary>2 USB Type-C plug, 3 captive; others reserved.</summary>
    public int PlugCode => (int)CableFields.Plug.Get(Raw);

    /// <summary>The cable is made for EPR.</summary>
    public bool EprCapable => CableFields.EprCapable.IsSet(Raw);

    /// <summary>Cable Latency, 0 to 15.</summary>
    public int LatencyCode => (int)CableFields.Latency.Get(Raw);

    /// <summary>2 one end active, 3 both; others reserved.</summary>
    public int TerminationCode => (int)CableFields.Termination.Get(Raw);

    /// <summary>0 20 V, 3 50 V; 1 and 2 are deprecated and count as 20 V.</summary>
    public int MaximumVbusCode => (int)CableFields.MaximumVbus.Get(Raw);

    /// <summary>20 V or 50 V, nominal.</summary>
    public Voltage MaximumVbus => CableFields.MaximumVbusOf(Raw);

    /// <summary>The sideband wires are absent.</summary>
    public bool SbuNotSupported => SbuNotSupportedField.IsSet(Raw);

    /// <summary>The sideband wires are active.</summary>
    public bool SbuActive => SbuActiveField.IsSet(Raw);

    /// <summary>1 3 A, 2 5 A; says something when <see cref="VbusThroughCable"/> only.</summary>
    public int CurrentCode => (int)CableFields.Current.Get(Raw);

    /// <summary>3 A or 5 A; null for an invalid code and for a cable without VBUS.</summary>
    public Current? MaximumCurrent => VbusThroughCable ? CableFields.CurrentOf(Raw) : null;

    /// <summary>VBUS goes from end to end.</summary>
    public bool VbusThroughCable => CableFields.VbusThrough.IsSet(Raw);

    /// <summary>There is a controller that answers on SOP''.</summary>
    public bool SopDoublePrimeController => CableFields.SopDoublePrime.IsSet(Raw);

    /// <summary>USB Highest Speed, 0 to 7; codes as of the passive cable.</summary>
    public int SpeedCode => (int)CableFields.Speed.Get(Raw);

    /// <summary>A cable without flags.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A code does not fit its field.</exception>
    public static ActiveCableVdo1 Create(CableCodes codes) => new(CableFields.Word(codes));

    /// <summary>The same object with one of its flags set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is not a single bit.</exception>
    public ActiveCableVdo1 With(BitField flag, bool value) => new(flag.SetFlag(Raw, value));
}
