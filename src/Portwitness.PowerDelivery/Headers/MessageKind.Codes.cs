namespace Portwitness.PowerDelivery.Headers;

// The code tables of R3.2v1.1: 6.5 (control), 6.6 (data), 6.53 (extended). One line a message, its name included.
public readonly partial record struct MessageKind
{
    private static readonly string?[] ControlNames = new string?[32];
    private static readonly string?[] DataNames = new string?[32];
    private static readonly string?[] ExtendedNames = new string?[32];

    /// <summary>GoodCRC, control message 0x01.</summary>
    public static readonly MessageKind GoodCRC = Define(MessageClass.Control, 0x01, "GoodCRC");

    /// <summary>GotoMin, control message 0x02.</summary>
    public static readonly MessageKind GotoMin = Define(MessageClass.Control, 0x02, "GotoMin");

    /// <summary>Accept, control message 0x03.</summary>
    public static readonly MessageKind Accept = Define(MessageClass.Control, 0x03, "Accept");

    /// <summary>Reject, control message 0x04.</summary>
    public static readonly MessageKind Reject = Define(MessageClass.Control, 0x04, "Reject");

    /// <summary>Ping, control message 0x05.</summary>
    public static readonly MessageKind Ping = Define(MessageClass.Control, 0x05, "Ping");

    /// <summary>PS_RDY, control message 0x06.</summary>
    public static readonly MessageKind PSRDY = Define(MessageClass.Control, 0x06, "PS_RDY");

    /// <summary>Get_Source_Cap, control message 0x07.</summary>
    public static readonly MessageKind GetSourceCap = Define(MessageClass.Control, 0x07, "Get_Source_Cap");

    /// <summary>Get_Sink_Cap, control message 0x08.</summary>
    public static readonly MessageKind GetSinkCap = Define(MessageClass.Control, 0x08, "Get_Sink_Cap");

    /// <summary>DR_Swap, control message 0x09.</summary>
    public static readonly MessageKind DRSwap = Define(MessageClass.Control, 0x09, "DR_Swap");

    /// <summary>PR_Swap, control message 0x0A.</summary>
    public static readonly MessageKind PRSwap = Define(MessageClass.Control, 0x0A, "PR_Swap");

    /// <summary>VCONN_Swap, control message 0x0B.</summary>
    public static readonly MessageKind VCONNSwap = Define(MessageClass.Control, 0x0B, "VCONN_Swap");

    /// <summary>Wait, control message 0x0C.</summary>
    public static readonly MessageKind Wait = Define(MessageClass.Control, 0x0C, "Wait");

    /// <summary>Soft_Reset, control message 0x0D.</summary>
    public static readonly MessageKind SoftReset = Define(MessageClass.Control, 0x0D, "Soft_Reset");

    /// <summary>Data_Reset, control message 0x0E.</summary>
    public static readonly MessageKind DataReset = Define(MessageClass.Control, 0x0E, "Data_Reset");

    /// <summary>Data_Reset_Complete, control message 0x0F.</summary>
    public static readonly MessageKind DataResetComplete = Define(MessageClass.Control, 0x0F, "Data_Reset_Complete");

    /// <summary>Not_Supported, control message 0x10.</summary>
    public static readonly MessageKind NotSupported = Define(MessageClass.Control, 0x10, "Not_Supported");

    /// <summary>Get_Source_Cap_Extended, control message 0x11.</summary>
    public static readonly MessageKind GetSourceCapExtended = Define(MessageClass.Control, 0x11, "Get_Source_Cap_Extended");

    /// <summary>Get_Status, control message 0x12.</summary>
    public static readonly MessageKind GetStatus = Define(MessageClass.Control, 0x12, "Get_Status");

    /// <summary>FR_Swap, control message 0x13.</summary>
    public static readonly MessageKind FRSwap = Define(MessageClass.Control, 0x13, "FR_Swap");

    /// <summary>Get_PPS_Status, control message 0x14.</summary>
    public static readonly MessageKind GetPPSStatus = Define(MessageClass.Control, 0x14, "Get_PPS_Status");

    /// <summary>Get_Country_Codes, control message 0x15.</summary>
    public static readonly MessageKind GetCountryCodes = Define(MessageClass.Control, 0x15, "Get_Country_Codes");

    /// <summary>Get_Sink_Cap_Extended, control message 0x16.</summary>
    public static readonly MessageKind GetSinkCapExtended = Define(MessageClass.Control, 0x16, "Get_Sink_Cap_Extended");

    /// <summary>Get_Source_Info, control message 0x17.</summary>
    public static readonly MessageKind GetSourceInfo = Define(MessageClass.Control, 0x17, "Get_Source_Info");

    /// <summary>Get_Revision, control message 0x18.</summary>
    public static readonly MessageKind GetRevision = Define(MessageClass.Control, 0x18, "Get_Revision");

    /// <summary>Source_Capabilities, data message 0x01.</summary>
    public static readonly MessageKind SourceCapabilities = Define(MessageClass.Data, 0x01, "Source_Capabilities");

    /// <summary>Request, data message 0x02.</summary>
    public static readonly MessageKind Request = Define(MessageClass.Data, 0x02, "Request");

    /// <summary>BIST, data message 0x03.</summary>
    public static readonly MessageKind BIST = Define(MessageClass.Data, 0x03, "BIST");

    /// <summary>Sink_Capabilities, data message 0x04.</summary>
    public static readonly MessageKind SinkCapabilities = Define(MessageClass.Data, 0x04, "Sink_Capabilities");

    /// <summary>Battery_Status, data message 0x05.</summary>
    public static readonly MessageKind BatteryStatus = Define(MessageClass.Data, 0x05, "Battery_Status");

    /// <summary>Alert, data message 0x06.</summary>
    public static readonly MessageKind Alert = Define(MessageClass.Data, 0x06, "Alert");

    /// <summary>Get_Country_Info, data message 0x07.</summary>
    public static readonly MessageKind GetCountryInfo = Define(MessageClass.Data, 0x07, "Get_Country_Info");

    /// <summary>Enter_USB, data message 0x08.</summary>
    public static readonly MessageKind EnterUSB = Define(MessageClass.Data, 0x08, "Enter_USB");

    /// <summary>EPR_Request, data message 0x09.</summary>
    public static readonly MessageKind EPRRequest = Define(MessageClass.Data, 0x09, "EPR_Request");

    /// <summary>EPR_Mode, data message 0x0A.</summary>
    public static readonly MessageKind EPRMode = Define(MessageClass.Data, 0x0A, "EPR_Mode");

    /// <summary>Source_Info, data message 0x0B.</summary>
    public static readonly MessageKind SourceInfo = Define(MessageClass.Data, 0x0B, "Source_Info");

    /// <summary>Revision, data message 0x0C.</summary>
    public static readonly MessageKind Revision = Define(MessageClass.Data, 0x0C, "Revision");

    /// <summary>Vendor_Defined, data message 0x0F.</summary>
    public static readonly MessageKind VendorDefined = Define(MessageClass.Data, 0x0F, "Vendor_Defined");

    /// <summary>Source_Capabilities_Extended, extended message 0x01.</summary>
    public static readonly MessageKind SourceCapabilitiesExtended = Define(MessageClass.Extended, 0x01, "Source_Capabilities_Extended");

    /// <summary>Status, extended message 0x02.</summary>
    public static readonly MessageKind Status = Define(MessageClass.Extended, 0x02, "Status");

    /// <summary>Get_Battery_Cap, extended message 0x03.</summary>
    public static readonly MessageKind GetBatteryCap = Define(MessageClass.Extended, 0x03, "Get_Battery_Cap");

    /// <summary>Get_Battery_Status, extended message 0x04.</summary>
    public static readonly MessageKind GetBatteryStatus = Define(MessageClass.Extended, 0x04, "Get_Battery_Status");

    /// <summary>Battery_Capabilities, extended message 0x05.</summary>
    public static readonly MessageKind BatteryCapabilities = Define(MessageClass.Extended, 0x05, "Battery_Capabilities");

    /// <summary>Get_Manufacturer_Info, extended message 0x06.</summary>
    public static readonly MessageKind GetManufacturerInfo = Define(MessageClass.Extended, 0x06, "Get_Manufacturer_Info");

    /// <summary>Manufacturer_Info, extended message 0x07.</summary>
    public static readonly MessageKind ManufacturerInfo = Define(MessageClass.Extended, 0x07, "Manufacturer_Info");

    /// <summary>Security_Request, extended message 0x08.</summary>
    public static readonly MessageKind SecurityRequest = Define(MessageClass.Extended, 0x08, "Security_Request");

    /// <summary>Security_Response, extended message 0x09.</summary>
    public static readonly MessageKind SecurityResponse = Define(MessageClass.Extended, 0x09, "Security_Response");

    /// <summary>Firmware_Update_Request, extended message 0x0A.</summary>
    public static readonly MessageKind FirmwareUpdateRequest = Define(MessageClass.Extended, 0x0A, "Firmware_Update_Request");

    /// <summary>Firmware_Update_Response, extended message 0x0B.</summary>
    public static readonly MessageKind FirmwareUpdateResponse = Define(MessageClass.Extended, 0x0B, "Firmware_Update_Response");

    /// <summary>PPS_Status, extended message 0x0C.</summary>
    public static readonly MessageKind PPSStatus = Define(MessageClass.Extended, 0x0C, "PPS_Status");

    /// <summary>Country_Info, extended message 0x0D.</summary>
    public static readonly MessageKind CountryInfo = Define(MessageClass.Extended, 0x0D, "Country_Info");

    /// <summary>Country_Codes, extended message 0x0E.</summary>
    public static readonly MessageKind CountryCodes = Define(MessageClass.Extended, 0x0E, "Country_Codes");

    /// <summary>Sink_Capabilities_Extended, extended message 0x0F.</summary>
    public static readonly MessageKind SinkCapabilitiesExtended = Define(MessageClass.Extended, 0x0F, "Sink_Capabilities_Extended");

    /// <summary>Extended_Control, extended message 0x10.</summary>
    public static readonly MessageKind ExtendedControl = Define(MessageClass.Extended, 0x10, "Extended_Control");

    /// <summary>EPR_Source_Capabilities, extended message 0x11.</summary>
    public static readonly MessageKind EPRSourceCapabilities = Define(MessageClass.Extended, 0x11, "EPR_Source_Capabilities");

    /// <summary>EPR_Sink_Capabilities, extended message 0x12.</summary>
    public static readonly MessageKind EPRSinkCapabilities = Define(MessageClass.Extended, 0x12, "EPR_Sink_Capabilities");

    /// <summary>Vendor_Defined_Extended, extended message 0x1E.</summary>
    public static readonly MessageKind VendorDefinedExtended = Define(MessageClass.Extended, 0x1E, "Vendor_Defined_Extended");

    private static string?[] NamesOf(MessageClass messageClass) => messageClass switch
    {
        MessageClass.Control => ControlNames,
        MessageClass.Data => DataNames,
        _ => ExtendedNames,
    };

    private static MessageKind Define(MessageClass messageClass, int code, string name)
    {
        NamesOf(messageClass)[code] = name;
        return new MessageKind(messageClass, code);
    }
}
