using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>DFP VDO of a hub, host or charger, since R3.0 (R3.2v1.1, 6.4.4.3.1). Any word is accepted and kept.</summary>
/// <remarks>Bits as the kernel header has them; the standard's table was not compared.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct DfpVdo(uint Raw)
{
    private static readonly BitField VersionField = new("DFP VDO Version", 31, 29);

    private static readonly BitField CapabilityField = new BitField("Host Capability", 26, 24)
        .Means(raw => CapabilityBits.Read(raw, "USB 2.0", "USB 3.2", "USB4"));

    private static readonly BitField ConnectorField =
        new BitField("Connector Type", 23, 22).Codes((0, "not told"), (2, "receptacle"), (3, "captive plug"));

    private static readonly BitField PortField = new("Port Number", 4, 0);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "DFP VDO", 32, "R3.2v1.1 6.4.4.3.1 (kernel header)",
        VersionField, BitField.Reserved(28, 27), CapabilityField, ConnectorField, BitField.Reserved(21, 5), PortField);

    /// <summary>DFP VDO Version, 0 to 7.</summary>
    public int VersionCode => (int)VersionField.Get(Raw);

    /// <summary>Bit 0 USB 2.0, 1 USB 3.2, 2 USB4.</summary>
    public int HostCapabilityBits => (int)CapabilityField.Get(Raw);

    /// <summary>2 receptacle, 3 captive plug; since R3.1 the ID header tells it.</summary>
    public int ConnectorCode => (int)ConnectorField.Get(Raw);

    /// <summary>Which port of the product answers, 0 to 31.</summary>
    public int PortNumber => (int)PortField.Get(Raw);

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static DfpVdo Create(int versionCode, int hostCapabilityBits, int connectorCode, int portNumber)
    {
        uint word = CapabilityField.SetScaled(VersionField.SetScaled(0, versionCode), hostCapabilityBits);
        return new DfpVdo(PortField.SetScaled(ConnectorField.SetScaled(word, connectorCode), portNumber));
    }
}
