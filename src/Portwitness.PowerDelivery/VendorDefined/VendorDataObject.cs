using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>An object whose meaning is the vendor's, or not known here (R3.2v1.1, 6.4.4). Any word is kept.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct VendorDataObject(uint Raw)
{
    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Vendor Data Object", 32, "R3.2v1.1 6.4.4", new BitField("Vendor data", 31, 0));
}
