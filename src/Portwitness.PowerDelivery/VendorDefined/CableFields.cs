using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>What the cable VDOs share, and what their codes are worth.</summary>
internal static class CableFields
{
    internal static readonly BitField Hardware = new("HW Version", 31, 28);
    internal static readonly BitField Firmware = new("Firmware Version", 27, 24);
    internal static readonly BitField Version = new("VDO Version", 23, 21);
    internal static readonly BitField Plug = new("USB Type-C plug to USB Type-C/Captive", 19, 18);
    internal static readonly BitField EprCapable = BitField.Flag("EPR Capable", 17);
    internal static readonly BitField Latency = new("Cable Latency", 16, 13);
    internal static readonly BitField Termination = new("Cable Termination Type", 12, 11);
    internal static readonly BitField MaximumVbus = new("Maximum VBUS Voltage", 10, 9);
    internal static readonly BitField Current = new("VBUS Current Handling Capability", 6, 5);
    internal static readonly BitField VbusThrough = BitField.Flag("VBUS Through Cable", 4);
    internal static readonly BitField SopDoublePrime = BitField.Flag("SOP'' Controller Present", 3);
    internal static readonly BitField Speed = new("USB Highest Speed", 2, 0);

    /// <summary>3 A or 5 A; null for codes that R3.x calls invalid.</summary>
    internal static Current? CurrentOf(uint raw) => Current.Get(raw) switch
    {
        1 => Electrical.UnmarkedCableMaximum,
        2 => Electrical.ConnectorMaximum,
        _ => null,
    };

    /// <summary>50 V for code 3; 20 V for 0 and for the deprecated codes 1 and 2.</summary>
    internal static Voltage MaximumVbusOf(uint raw) => MaximumVbus.Get(raw) == 3
        ? Electrical.EprCableMaximumVoltage
        : Electrical.UnmarkedCableMaximumVoltage;

    /// <summary>The fields that passive and active cables put in the same place.</summary>
    internal static uint Word(CableCodes codes)
    {
        uint word = Hardware.SetScaled(0, codes.HardwareVersion);
        word = Firmware.SetScaled(word, codes.FirmwareVersion);
        word = Plug.SetScaled(word, codes.Plug);
        word = Latency.SetScaled(word, codes.Latency);
        word = Termination.SetScaled(word, codes.Termination);
        word = MaximumVbus.SetScaled(word, codes.MaximumVbus);
        word = Current.SetScaled(word, codes.Current);
        return Speed.SetScaled(word, codes.Speed);
    }
}
