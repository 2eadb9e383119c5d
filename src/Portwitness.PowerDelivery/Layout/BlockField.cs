namespace Portwitness.PowerDelivery.Layout;

/// <summary>
/// One field of a data block, described once: the bytes that hold it, read as one little-endian number, and its bits there.
/// </summary>
/// <param name="Offset">First byte, counted from 0.</param>
/// <param name="Length">Number of bytes, 1 to 4.</param>
/// <param name="Bits">The field's bits in that number.</param>
public readonly record struct BlockField(int Offset, int Length, BitField Bits)
{
    /// <summary>The standard's name.</summary>
    public string Name => Bits.Name;

    /// <summary>The first byte after the field's.</summary>
    public int End => Offset + Length;

    /// <summary>A field that is whole bytes.</summary>
    public static BlockField Bytes(
        string name, int offset, int length, FieldUnit unit = FieldUnit.None, int scale = 1) =>
        new(offset, length, new BitField(name, (length * 8) - 1, 0, unit, scale));

    /// <summary>A yes-or-no bit of a byte.</summary>
    public static BlockField Flag(string name, int offset, int bit) => new(offset, 1, BitField.Flag(name, bit));

    /// <summary>Reserved bits of a byte.</summary>
    public static BlockField Reserved(int offset, int high, int low) => new(offset, 1, BitField.Reserved(high, low));

    /// <summary>The same field with the names of its codes.</summary>
    public BlockField Codes(params (uint Code, string Name)[] names) => this with { Bits = Bits.Codes(names) };

    /// <summary>The same field with words for its raw value; null leaves it to number and unit.</summary>
    public BlockField Means(Func<uint, string?> meaning) => this with { Bits = Bits.Means(meaning) };
}
