using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>ID Header VDO of an answer to Discover Identity (R3.2v1.1, Table 6.33). Any word is accepted and kept.</summary>
/// <remarks>
/// What the product type means depends on who answers: a port on SOP, a cable plug on SOP'. Answers of structured VDM
/// version 1.0 (R2.0) reserve bits 25 to 16.
/// </remarks>
/// <param name="Raw">The word.</param>
public readonly record struct IdHeader(uint Raw)
{
    private static readonly BitField HostField = BitField.Flag("USB Communications Capable as USB Host", 31);
    private static readonly BitField DeviceField = BitField.Flag("USB Communications Capable as a USB Device", 30);
    private static readonly BitField ProductTypeField = new BitField("SOP Product Type (UFP)", 29, 27)
        .Codes((0, "none"), (1, "hub"), (2, "peripheral"), (3, "power sink device"));

    private static readonly BitField PlugTypeField = new BitField("SOP' Product Type (Cable Plug/VPD)", 29, 27)
        .Codes((0, "none"), (3, "passive cable"), (4, "active cable"), (6, "VCONN-powered device"));

    private static readonly BitField ModalField = BitField.Flag("Modal Operation Supported", 26);
    private static readonly BitField DfpTypeField = new BitField("SOP Product Type (DFP)", 25, 23)
        .Codes((0, "none"), (1, "hub"), (2, "host"), (3, "charger"));

    private static readonly BitField ConnectorField = new BitField("Connector Type", 22, 21)
        .Codes((0, "not told"), (2, "receptacle"), (3, "plug"));

    private static readonly BitField VendorIdField = new("USB Vendor ID", 15, 0);

    /// <summary>All 32 bits of a port's answer, on SOP.</summary>
    public static BitLayout Layout { get; } = new(
        "ID Header VDO", 32, "R3.2v1.1 Table 6.33",
        HostField, DeviceField, ProductTypeField, ModalField, DfpTypeField, ConnectorField, BitField.Reserved(20, 16),
        VendorIdField);

    /// <summary>All 32 bits of a cable plug's answer, on SOP' and SOP''.</summary>
    public static BitLayout CablePlugLayout { get; } = new(
        "ID Header VDO, cable plug", 32, "R3.2v1.1 Table 6.33",
        HostField, DeviceField, PlugTypeField, ModalField,
        BitField.Reserved(25, 23), ConnectorField, BitField.Reserved(20, 16), VendorIdField);

    /// <summary>The product can be a USB host.</summary>
    public bool UsbHost => HostField.IsSet(Raw);

    /// <summary>The product can be a USB device.</summary>
    public bool UsbDevice => DeviceField.IsSet(Raw);

    /// <summary>Code of the product type, 0 to 7; see <see cref="ProductTypeName"/>.</summary>
    public int ProductTypeCode => (int)ProductTypeField.Get(Raw);

    /// <summary>The product has modes to enter.</summary>
    public bool ModalOperation => ModalField.IsSet(Raw);

    /// <summary>On SOP, since R3.0: 0 none, 1 hub, 2 host, 3 charger; others reserved.</summary>
    public int DfpTypeCode => (int)DfpTypeField.Get(Raw);

    /// <summary>Since R3.0: 0 says nothing (older products), 2 receptacle, 3 plug; 1 is reserved.</summary>
    public int ConnectorCode => (int)ConnectorField.Get(Raw);

    /// <summary>USB vendor id.</summary>
    public int VendorId => (int)VendorIdField.Get(Raw);

    /// <summary>The layout that the SOP kind selects.</summary>
    public static BitLayout LayoutFor(SopKind sop) => sop == SopKind.Sop ? Layout : CablePlugLayout;

    /// <summary>The product type in words; "reserved (7)" for codes without a meaning.</summary>
    public string ProductTypeName(SopKind sop) => (sop == SopKind.Sop ? ProductTypeField : PlugTypeField).Describe(Raw);

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static IdHeader Create(
        int vendorId, int productTypeCode, int dfpTypeCode, int connectorCode, bool usbHost, bool usbDevice, bool modal)
    {
        uint word = DeviceField.SetFlag(HostField.SetFlag(0, usbHost), usbDevice);
        word = ProductTypeField.SetScaled(word, productTypeCode);
        word = ModalField.SetFlag(word, modal);
        word = DfpTypeField.SetScaled(word, dfpTypeCode);
        word = ConnectorField.SetScaled(word, connectorCode);
        return new IdHeader(VendorIdField.SetScaled(word, vendorId));
    }
}
