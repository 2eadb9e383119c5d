using System.Buffers.Binary;
using System.Collections.Immutable;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>One word of an EPR list.</summary>
/// <param name="Position">Object position, counted from 1.</param>
/// <param name="Raw">The word.</param>
/// <param name="Known">One bit for each bit of <paramref name="Raw"/> that was shown.</param>
public readonly record struct EprListObject(int Position, uint Raw, uint Known)
{
    /// <summary>Whether this is the place of an EPR object, position 8 and beyond.</summary>
    public bool IsEprPosition => Position >= MessageLimits.FirstEprPosition;

    /// <summary>Zero-filled, which stands for "no object" at positions 1 to 7 (R3.2v1.1, 6.5.15.1).</summary>
    public bool IsPadding => !IsEprPosition && Raw == 0 && Known == uint.MaxValue;
}

/// <summary>
/// EPR_Source_Capabilities and EPR_Sink_Capabilities, 28 to 44 bytes (R3.2v1.1, 6.5.15): positions 1 to 7 are those of
/// the SPR list, filled up with zeroes; EPR objects begin at position 8. Longer lists are read as well.
/// </summary>
/// <param name="Block">The bytes of all chunks: the seventh object lies across the first two.</param>
public sealed record EprCapabilitiesBlock(DataBlock Block)
{
    private const int WordBytes = 4;

    /// <summary>No fields; words follow, laid out as Power Data Objects.</summary>
    public static BlockLayout Layout { get; } = new("EPR Capabilities Data Block", "R3.2v1.1 6.5.15", BlockTail.Words);

    /// <summary>Complete words, padding included, in order.</summary>
    public ImmutableArray<EprListObject> Objects
    {
        get
        {
            EprListObject[] objects = new EprListObject[Block.Length / WordBytes];
            for (int i = 0; i < objects.Length; i++)
            {
                objects[i] = new EprListObject(
                    i + 1,
                    BinaryPrimitives.ReadUInt32LittleEndian(Block.Bytes[(i * WordBytes)..]),
                    BinaryPrimitives.ReadUInt32LittleEndian(Block.Known[(i * WordBytes)..]));
            }

            return [.. objects];
        }
    }

    /// <summary>Last bytes that are no whole word.</summary>
    public DataBlock Remainder => Block.From(Block.Length / WordBytes * WordBytes);

    /// <summary>A list: the SPR objects, zeroes up to position 7, the EPR objects.</summary>
    /// <exception cref="ArgumentException">More than 7 SPR objects.</exception>
    public static EprCapabilitiesBlock Create(ReadOnlySpan<uint> spr, ReadOnlySpan<uint> epr)
    {
        if (spr.Length > MessageLimits.MaxSprObjects)
        {
            throw new ArgumentException($"There are {MessageLimits.MaxSprObjects} SPR positions.", nameof(spr));
        }

        Span<uint> words = new uint[MessageLimits.MaxSprObjects + epr.Length];
        spr.CopyTo(words);
        epr.CopyTo(words[MessageLimits.MaxSprObjects..]);
        byte[] bytes = new byte[words.Length * WordBytes];
        for (int i = 0; i < words.Length; i++)
        {
            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(i * WordBytes), words[i]);
        }

        return new EprCapabilitiesBlock(DataBlock.Of(bytes));
    }
}
