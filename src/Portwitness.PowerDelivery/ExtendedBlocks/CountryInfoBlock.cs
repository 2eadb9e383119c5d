using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Country_Info, CIDB, 4 to 26 bytes (R3.2v1.1, 6.5.12). The place of code and reserved bytes is from memory.</summary>
/// <param name="Block">The bytes.</param>
public sealed record CountryInfoBlock(DataBlock Block)
{
    private static readonly BlockField FirstField =
        BlockField.Bytes("First character of the Country Code", 0, 1).Means(raw => CountryCode.Letter(raw));

    private static readonly BlockField SecondField =
        BlockField.Bytes("Second character of the Country Code", 1, 1).Means(raw => CountryCode.Letter(raw));

    /// <summary>All bytes; what the country defines follows.</summary>
    public static BlockLayout Layout { get; } = new(
        "Country Info Data Block", "R3.2v1.1 6.5.12 (bytes from memory)", BlockTail.Opaque,
        FirstField, SecondField, BlockField.Reserved(2, 7, 0), BlockField.Reserved(3, 7, 0));

    /// <summary>The country; null when it is missing or was not shown.</summary>
    public CountryCode? Country => (Block.Get(FirstField), Block.Get(SecondField)) is ({ } first, { } second)
        ? new CountryCode((byte)first, (byte)second)
        : null;

    /// <summary>What the country defines, 0 to 22 bytes.</summary>
    public DataBlock Data => Block.From(Layout.Size);
}
