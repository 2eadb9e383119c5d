using System.Collections.Immutable;

namespace Portwitness.PowerDelivery.Layout;

/// <summary>
/// All bits of one kind of word, high to low, reserved ones included. Accessors, the bit-by-bit view and the
/// documentation come from this one description.
/// </summary>
public sealed class BitLayout
{
    /// <summary>A layout of fields from the highest bit to the lowest.</summary>
    /// <param name="name">The standard's name of the word.</param>
    /// <param name="width">16 or 32 bits.</param>
    /// <param name="clause">Edition and table.</param>
    /// <param name="fields">Every bit once, high to low.</param>
    public BitLayout(string name, int width, string clause, params BitField[] fields)
    {
        Name = name;
        Width = width;
        Clause = clause;
        Fields = [.. fields];
        foreach (BitField field in fields)
        {
            if (field.IsReserved)
            {
                ReservedMask |= field.Mask;
            }
        }
    }

    /// <summary>The standard's name of the word.</summary>
    public string Name { get; }

    /// <summary>Bits in the word.</summary>
    public int Width { get; }

    /// <summary>Edition and table that the layout is taken from.</summary>
    public string Clause { get; }

    /// <summary>The fields, high to low; together they cover every bit once.</summary>
    public ImmutableArray<BitField> Fields { get; }

    /// <summary>All reserved bits of the word.</summary>
    public uint ReservedMask { get; }

    /// <inheritdoc cref="Name"/>
    public override string ToString() => Name;
}
