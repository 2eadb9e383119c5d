using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>Cert Stat VDO (R3.2v1.1, Table 6.37).</summary>
/// <param name="Raw">The word: the XID of the certification, 0 for none.</param>
public readonly record struct CertStat(uint Raw)
{
    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } =
        new("Cert Stat VDO", 32, "R3.2v1.1 Table 6.37", new BitField("XID", 31, 0));

    /// <summary>The XID, 0 for none.</summary>
    public uint Xid => Raw;
}

/// <summary>Product VDO (R3.2v1.1, Table 6.38).</summary>
/// <param name="Raw">The word.</param>
public readonly record struct ProductVdo(uint Raw)
{
    private static readonly BitField ProductIdField = new("USB Product ID", 31, 16);
    private static readonly BitField DeviceReleaseField = new("bcdDevice", 15, 0);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } =
        new("Product VDO", 32, "R3.2v1.1 Table 6.38", ProductIdField, DeviceReleaseField);

    /// <summary>USB product id.</summary>
    public int ProductId => (int)ProductIdField.Get(Raw);

    /// <summary>Release number, one decimal digit in four bits.</summary>
    public int DeviceRelease => (int)DeviceReleaseField.Get(Raw);

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static ProductVdo Create(int productId, int deviceRelease) =>
        new(DeviceReleaseField.SetScaled(ProductIdField.SetScaled(0, productId), deviceRelease));
}
