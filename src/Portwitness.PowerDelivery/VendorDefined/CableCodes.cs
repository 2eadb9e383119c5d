namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>The codes from which a cable VDO of R3.x is built; the VDO types tell what each is worth.</summary>
/// <param name="Latency">Cable Latency, 0 to 15.</param>
/// <param name="Termination">Cable Termination Type, 0 to 3.</param>
/// <param name="MaximumVbus">Maximum VBUS Voltage, 0 to 3.</param>
/// <param name="Current">VBUS Current Handling Capability, 0 to 3.</param>
/// <param name="Speed">USB Highest Speed, 0 to 7.</param>
/// <param name="Plug">2 USB Type-C plug, 3 captive.</param>
/// <param name="HardwareVersion">0 to 15.</param>
/// <param name="FirmwareVersion">0 to 15.</param>
/// <param name="VdoVersion">0 to 7.</param>
public readonly record struct CableCodes(
    int Latency, int Termination, int MaximumVbus, int Current, int Speed, int Plug = 2, int HardwareVersion = 0,
    int FirmwareVersion = 0, int VdoVersion = 0);
