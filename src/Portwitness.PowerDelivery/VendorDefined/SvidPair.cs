using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>Two SVIDs of an answer to Discover SVIDs (R3.2v1.1, 6.4.4.3.2); 0 ends the list.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct SvidPair(uint Raw)
{
    private static readonly BitField FirstField = Svid("SVID n", 31, 16);
    private static readonly BitField SecondField = Svid("SVID n + 1", 15, 0);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Discover SVIDs Responder VDO", 32, "R3.2v1.1 6.4.4.3.2", FirstField, SecondField);

    /// <summary>The SVID that comes first, 0 to 65535.</summary>
    public int First => (int)FirstField.Get(Raw);

    /// <summary>The SVID that comes second, 0 to 65535.</summary>
    public int Second => (int)SecondField.Get(Raw);

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An SVID is not 0 to 65535.</exception>
    public static SvidPair Create(int first, int second) =>
        new(SecondField.SetScaled(FirstField.SetScaled(0, first), second));

    private static BitField Svid(string name, int high, int low) =>
        new BitField(name, high, low).Means(raw => raw == 0 ? "end of the list" : null);
}
