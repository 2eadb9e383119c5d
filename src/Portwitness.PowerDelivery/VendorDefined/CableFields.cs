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
    internal static readonly BitField Plug = 
        new BitField("USB Type-C plug to USB Type-C/Captive", 19, 18).Codes((2, "USB Type-C plug"), (3, "captive"));

    internal static readonly BitField EprCapable = BitField.Flag("EPR Capable", 17);
    internal static readonly BitField Latency = new BitField("Cable Latency", 16, 13).Means(raw => raw switch
    {
        1 => "below 10 ns (about 1 m)",
        >= 2 and <= 7 => $"{(raw - 1) * 10} ns to {raw * 10} ns (about {raw} m)",
        8 => "above 70 ns (longer than about 7 m)",
        _ => $"reserved ({raw})",
    });

    internal static readonly BitField Termination = new BitField("Cable Termination Type", 12, 11).Codes(
        (0, "VCONN not required"), (1, "VCONN required"), (2, "one end active"), (3, "both ends active"));

    internal static readonly BitField MaximumVbus = new BitField("Maximum VBUS Voltage", 10, 9).Codes(
        (0, "20 V"), (1, "20 V (30 V, deprecated)"), (2, "20 V (40 V, deprecated)"), (3, "50 V"));

    internal static readonly BitField Current = 
        new BitField("VBUS Current Handling Capability", 6, 5).Codes((1, "3 A"), (2, "5 A"));

    internal static readonly BitField VbusThrough = BitField.Flag("VBUS Through Cable", 4);
    internal static readonly BitField SopDoublePrime = BitField.Flag("SOP'' Controller Present", 3);
    internal static readonly BitField Speed = new BitField("USB Highest Speed", 2, 0).Codes(
        (0, "USB 2.0"), (1, "USB 3.2 Gen 1"), (2, "Gen 2"), (3, "USB4 Gen 3"), (4, "USB4 Gen 4"));

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
        word = Version.SetScaled(word, codes.VdoVersion);
        word = Plug.SetScaled(word, codes.Plug);
        word = Latency.SetScaled(word, codes.Latency);
        word = Termination.SetScaled(word, codes.Termination);
        word = MaximumVbus.SetScaled(word, codes.MaximumVbus);
        word = Current.SetScaled(word, codes.Current);
        return Speed.SetScaled(word, codes.Speed);
    }
}
