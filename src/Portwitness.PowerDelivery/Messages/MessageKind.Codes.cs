namespace Portwitness.PowerDelivery.Messages;

// The code tables of R3.2v1.1: 6.5 (control), 6.6 (data), 6.53 (extended).
public readonly partial record struct MessageKind
{
    /// <summary>GoodCRC, control message 0x01.</summary>
    public static readonly MessageKind GoodCRC = new(MessageClass.Control, 0x01);

    /// <summary>GotoMin, control message 0x02.</summary>
    public static readonly MessageKind GotoMin = new(MessageClass.Control, 0x02);

    /// <summary>Accept, control message 0x03.</summary>
    public static readonly MessageKind Accept = new(MessageClass.Control, 0x03);

    /// <summary>Reject, control message 0x04.</summary>
    public static readonly MessageKind Reject = new(MessageClass.Control, 0x04);

    /// <summary>Ping, control message 0x05.</summary>
    public static readonly MessageKind Ping = new(MessageClass.Control, 0x05);

    /// <summary>PS_RDY, control message 0x06.</summary>
    public static readonly MessageKind PSRDY = new(MessageClass.Control, 0x06);

    /// <summary>Get_Source_Cap, control message 0x07.</summary>
    public static readonly MessageKind GetSourceCap = new(MessageClass.Control, 0x07);

    /// <summary>Get_Sink_Cap, control message 0x08.</summary>
    public static readonly MessageKind GetSinkCap = new(MessageClass.Control, 0x08);

    /// <summary>DR_Swap, control message 0x09.</summary>
    public static readonly MessageKind DRSwap = new(MessageClass.Control, 0x09);

    /// <summary>PR_Swap, control message 0x0A.</summary>
    public static readonly MessageKind PRSwap = new(MessageClass.Control, 0x0A);

    /// <summary>VCONN_Swap, control message 0x0B.</summary>
    public static readonly MessageKind VCONNSwap = new(MessageClass.Control, 0x0B);

    /// <summary>Wait, control message 0x0C.</summary>
    public static readonly MessageKind Wait = new(MessageClass.Control, 0x0C);

    /// <summary>Soft_Reset, control message 0x0D.</summary>
    public static readonly MessageKind SoftReset = new(MessageClass.Control, 0x0D);

    /// <summary>Data_Reset, control message 0x0E.</summary>
    public static readonly MessageKind DataReset = new(MessageClass.Control, 0x0E);

    /// <summary>Data_Reset_Complete, control message 0x0F.</summary>
    public static readonly MessageKind DataResetComplete = new(MessageClass.Control, 0x0F);

    /// <summary>Not_Supported, control message 0x10.</summary>
    public static readonly MessageKind NotSupported = new(MessageClass.Control, 0x10);

    /// <summary>Get_Source_Cap_Extended, control message 0x11.</summary>
    public static readonly MessageKind GetSourceCapExtended = new(MessageClass.Control, 0x11);

    /// <summary>Get_Status, control message 0x12.</summary>
    public static readonly MessageKind GetStatus = new(MessageClass.Control, 0x12);

    /// <summary>FR_Swap, control message 0x13.</summary>
    public static readonly MessageKind FRSwap = new(MessageClass.Control, 0x13);

    /// <summary>Get_PPS_Status, control message 0x14.</summary>
    public static readonly MessageKind GetPPSStatus = new(MessageClass.Control, 0x14);

    /// <summary>Get_Country_Codes, control message 0x15.</summary>
    public static readonly MessageKind GetCountryCodes = new(MessageClass.Control, 0x15);

    /// <summary>Get_Sink_Cap_Extended, control message 0x16.</summary>
    public static readonly MessageKind GetSinkCapExtended = new(MessageClass.Control, 0x16);

    /// <summary>Get_Source_Info, control message 0x17.</summary>
    public static readonly MessageKind GetSourceInfo = new(MessageClass.Control, 0x17);

    /// <summary>Get_Revision, control message 0x18.</summary>
    public static readonly MessageKind GetRevision = new(MessageClass.Control, 0x18);

    /// <summary>Source_Capabilities, data message 0x01.</summary>
    public static readonly MessageKind SourceCapabilities = new(MessageClass.Data, 0x01);

    /// <summary>Request, data message 0x02.</summary>
    public static readonly MessageKind Request = new(MessageClass.Data, 0x02);

    /// <summary>BIST, data message 0x03.</summary>
    public static readonly MessageKind BIST = new(MessageClass.Data, 0x03);

    /// <summary>Sink_Capabilities, data message 0x04.</summary>
    public static readonly MessageKind SinkCapabilities = new(MessageClass.Data, 0x04);

    /// <summary>Battery_Status, data message 0x05.</summary>
    public static readonly MessageKind BatteryStatus = new(MessageClass.Data, 0x05);

    /// <summary>Alert, data message 0x06.</summary>
    public static readonly MessageKind Alert = new(MessageClass.Data, 0x06);

    /// <summary>Get_Country_Info, data message 0x07.</summary>
    public static readonly MessageKind GetCountryInfo = new(MessageClass.Data, 0x07);

    /// <summary>Enter_USB, data message 0x08.</summary>
    public static readonly MessageKind EnterUSB = new(MessageClass.Data, 0x08);

    /// <summary>EPR_Request, data message 0x09.</summary>
    public static readonly MessageKind EPRRequest = new(MessageClass.Data, 0x09);

    /// <summary>EPR_Mode, data message 0x0A.</summary>
    public static readonly MessageKind EPRMode = new(MessageClass.Data, 0x0A);

    /// <summary>Source_Info, data message 0x0B.</summary>
    public static readonly MessageKind SourceInfo = new(MessageClass.Data, 0x0B);

    /// <summary>Revision, data message 0x0C.</summary>
    public static readonly MessageKind Revision = new(MessageClass.Data, 0x0C);

    /// <summary>Vendor_Defined, data message 0x0F.</summary>
    public static readonly MessageKind VendorDefined = new(MessageClass.Data, 0x0F);

    /// <summary>Source_Capabilities_Extended, extended message 0x01.</summary>
    public static readonly MessageKind SourceCapabilitiesExtended = new(MessageClass.Extended, 0x01);

    /// <summary>Status, extended message 0x02.</summary>
    public static readonly MessageKind Status = new(MessageClass.Extended, 0x02);

    /// <summary>Get_Battery_Cap, extended message 0x03.</summary>
    public static readonly MessageKind GetBatteryCap = new(MessageClass.Extended, 0x03);

    /// <summary>Get_Battery_Status, extended message 0x04.</summary>
    public static readonly MessageKind GetBatteryStatus = new(MessageClass.Extended, 0x04);

    /// <summary>Battery_Capabilities, extended message 0x05.</summary>
    public static readonly MessageKind BatteryCapabilities = new(MessageClass.Extended, 0x05);

    /// <summary>Get_Manufacturer_Info, extended message 0x06.</summary>
    public static readonly MessageKind GetManufacturerInfo = new(MessageClass.Extended, 0x06);

    /// <summary>Manufacturer_Info, extended message 0x07.</summary>
    public static readonly MessageKind ManufacturerInfo = new(MessageClass.Extended, 0x07);

    /// <summary>Security_Request, extended message 0x08.</summary>
    public static readonly MessageKind SecurityRequest = new(MessageClass.Extended, 0x08);

    /// <summary>Security_Response, extended message 0x09.</summary>
    public static readonly MessageKind SecurityResponse = new(MessageClass.Extended, 0x09);

    /// <summary>Firmware_Update_Request, extended message 0x0A.</summary>
    public static readonly MessageKind FirmwareUpdateRequest = new(MessageClass.Extended, 0x0A);

    /// <summary>Firmware_Update_Response, extended message 0x0B.</summary>
    public static readonly MessageKind FirmwareUpdateResponse = new(MessageClass.Extended, 0x0B);

    /// <summary>PPS_Status, extended message 0x0C.</summary>
    public static readonly MessageKind PPSStatus = new(MessageClass.Extended, 0x0C);

    /// <summary>Country_Info, extended message 0x0D.</summary>
    public static readonly MessageKind CountryInfo = new(MessageClass.Extended, 0x0D);

    /// <summary>Country_Codes, extended message 0x0E.</summary>
    public static readonly MessageKind CountryCodes = new(MessageClass.Extended, 0x0E);

    /// <summary>Sink_Capabilities_Extended, extended message 0x0F.</summary>
    public static readonly MessageKind SinkCapabilitiesExtended = new(MessageClass.Extended, 0x0F);

    /// <summary>Extended_Control, extended message 0x10.</summary>
    public static readonly MessageKind ExtendedControl = new(MessageClass.Extended, 0x10);

    /// <summary>EPR_Source_Capabilities, extended message 0x11.</summary>
    public static readonly MessageKind EPRSourceCapabilities = new(MessageClass.Extended, 0x11);

    /// <summary>EPR_Sink_Capabilities, extended message 0x12.</summary>
    public static readonly MessageKind EPRSinkCapabilities = new(MessageClass.Extended, 0x12);

    /// <summary>Vendor_Defined_Extended, extended message 0x1E.</summary>
    public static readonly MessageKind VendorDefinedExtended = new(MessageClass.Extended, 0x1E);

    private static readonly string?[] ControlNames = Names(
        (0x01, "GoodCRC"),
        (0x02, "GotoMin"),
        (0x03, "Accept"),
        (0x04, "Reject"),
        (0x05, "Ping"),
        (0x06, "PS_RDY"),
        (0x07, "Get_Source_Cap"),
        (0x08, "Get_Sink_Cap"),
        (0x09, "DR_Swap"),
        (0x0A, "PR_Swap"),
        (0x0B, "VCONN_Swap"),
        (0x0C, "Wait"),
        (0x0D, "Soft_Reset"),
        (0x0E, "Data_Reset"),
        (0x0F, "Data_Reset_Complete"),
        (0x10, "Not_Supported"),
        (0x11, "Get_Source_Cap_Extended"),
        (0x12, "Get_Status"),
        (0x13, "FR_Swap"),
        (0x14, "Get_PPS_Status"),
        (0x15, "Get_Country_Codes"),
        (0x16, "Get_Sink_Cap_Extended"),
        (0x17, "Get_Source_Info"),
        (0x18, "Get_Revision"));

    private static readonly string?[] DataNames = Names(
        (0x01, "Source_Capabilities"),
        (0x02, "Request"),
        (0x03, "BIST"),
        (0x04, "Sink_Capabilities"),
        (0x05, "Battery_Status"),
        (0x06, "Alert"),
        (0x07, "Get_Country_Info"),
        (0x08, "Enter_USB"),
        (0x09, "EPR_Request"),
        (0x0A, "EPR_Mode"),
        (0x0B, "Source_Info"),
        (0x0C, "Revision"),
        (0x0F, "Vendor_Defined"));

    private static readonly string?[] ExtendedNames = Names(
        (0x01, "Source_Capabilities_Extended"),
        (0x02, "Status"),
        (0x03, "Get_Battery_Cap"),
        (0x04, "Get_Battery_Status"),
        (0x05, "Battery_Capabilities"),
        (0x06, "Get_Manufacturer_Info"),
        (0x07, "Manufacturer_Info"),
        (0x08, "Security_Request"),
        (0x09, "Security_Response"),
        (0x0A, "Firmware_Update_Request"),
        (0x0B, "Firmware_Update_Response"),
        (0x0C, "PPS_Status"),
        (0x0D, "Country_Info"),
        (0x0E, "Country_Codes"),
        (0x0F, "Sink_Capabilities_Extended"),
        (0x10, "Extended_Control"),
        (0x11, "EPR_Source_Capabilities"),
        (0x12, "EPR_Sink_Capabilities"),
        (0x1E, "Vendor_Defined_Extended"));

    private static string?[] Names(params ReadOnlySpan<(int Code, string Name)> entries)
    {
        string?[] names = new string?[32];
        foreach ((int code, string name) in entries)
        {
            names[code] = name;
        }

        return names;
    }
}
