using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>The object of a Get_Country_Info message, CCDO (R3.2v1.1, 6.4.7), since R3.0. Any word is kept.</summary>
/// <remarks>The place of the two letters is from memory.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct GetCountryInfoObject(uint Raw)
{
    private static readonly BitField FirstField =
        new BitField("First character of the Alpha-2 Country Code", 31, 24).Means(raw => CountryCode.Letter(raw));

    private static readonly BitField SecondField =
        new BitField("Second character of the Alpha-2 Country Code", 23, 16).Means(raw => CountryCode.Letter(raw));

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Country Code Data Object", 32, "R3.2v1.1 6.4.7 (bits from memory)",
        FirstField, SecondField, BitField.Reserved(15, 0));

    /// <summary>The country that is asked for.</summary>
    public CountryCode Country => new((byte)FirstField.Get(Raw), (byte)SecondField.Get(Raw));

    /// <summary>Builds the object.</summary>
    public static GetCountryInfoObject Create(CountryCode country) =>
        new(SecondField.Set(FirstField.Set(0, country.First), country.Second));
}
