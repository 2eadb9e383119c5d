using System.Collections.Immutable;

namespace Portwitness.PowerDelivery.Layout;

/// <summary>What follows the fields of a data block.</summary>
public enum BlockTail
{
    /// <summary>Nothing that is known; a newer edition may have added fields.</summary>
    None,

    /// <summary>Text that ends at a zero byte.</summary>
    Text,

    /// <summary>Bytes whose meaning this library does not know.</summary>
    Opaque,

    /// <summary>32-bit words, little-endian.</summary>
    Words,

    /// <summary>Country codes of two letters.</summary>
    CountryCodes,
}

/// <summary>All bytes and bits of one kind of data block, in order, reserved ones included.</summary>
public sealed class BlockLayout
{
    /// <summary>A layout of fields in byte order; within a group of bytes from the highest bit to the lowest.</summary>
    /// <param name="name">The standard's name of the block.</param>
    /// <param name="clause">Edition and table.</param>
    /// <param name="tail">What follows the fields.</param>
    /// <param name="fields">Every bit of the fields' bytes once.</param>
    public BlockLayout(string name, string clause, BlockTail tail, params BlockField[] fields)
    {
        Name = name;
        Clause = clause;
        Tail = tail;
        Fields = [.. fields];
        Size = fields.Length == 0 ? 0 : fields[^1].End;
    }

    /// <summary>The standard's name of the block.</summary>
    public string Name { get; }

    /// <summary>Edition and table that the layout is taken from.</summary>
    public string Clause { get; }

    /// <summary>The fields; together they cover every bit of the first <see cref="Size"/> bytes once.</summary>
    public ImmutableArray<BlockField> Fields { get; }

    /// <summary>Bytes that the fields cover.</summary>
    public int Size { get; }

    /// <summary>What follows the fields.</summary>
    public BlockTail Tail { get; }

    /// <inheritdoc cref="Name"/>
    public override string ToString() => Name;
}
