using System.Collections.Immutable;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>
/// The data block of an extended message, put together from its chunks, with the bits that were shown
/// (R3.2v1.1, 6.2.1.2). Immutable; equal when bytes and known bits are.
/// </summary>
/// <remarks>A field that the block is too short for, or of which a bit was not shown, reads as null.</remarks>
public sealed class DataBlock : IEquatable<DataBlock>
{
    private const byte AllBits = 0xFF;
    private readonly ImmutableArray<byte> bytes;
    private readonly ImmutableArray<byte> known;

    private DataBlock(ImmutableArray<byte> bytes, ImmutableArray<byte> known)
    {
        this.bytes = bytes;
        this.known = known;
    }

    /// <summary>The bytes; bits that are not known are as they were handed over.</summary>
    public ReadOnlySpan<byte> Bytes => bytes.AsSpan();

    /// <summary>One bit for each bit of <see cref="Bytes"/> that was shown.</summary>
    public ReadOnlySpan<byte> Known => known.AsSpan();

    /// <summary>Number of bytes.</summary>
    public int Length => bytes.Length;

    /// <summary>Whether every bit was shown.</summary>
    public bool IsWhollyKnown => !Known.ContainsAnyExcept(AllBits);

    /// <summary>A block of these bytes.</summary>
    /// <param name="bytes">Copied.</param>
    /// <param name="known">One bit for each bit that was shown; empty when all were.</param>
    /// <exception cref="ArgumentException"><paramref name="known"/> is neither empty nor as long as the bytes.</exception>
    public static DataBlock Of(ReadOnlySpan<byte> bytes, ReadOnlySpan<byte> known = default)
    {
        if (!known.IsEmpty && known.Length != bytes.Length)
        {
            throw new ArgumentException($"{known.Length} bytes of mask do not fit {bytes.Length} bytes.", nameof(known));
        }

        return new DataBlock([.. bytes], known.IsEmpty ? [.. Enumerable.Repeat(AllBits, bytes.Length)] : [.. known]);
    }

    /// <summary>A block of zeroes, to be filled with <see cref="With"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The length is negative.</exception>
    public static DataBlock Blank(int length) => length < 0
        ? throw new ArgumentOutOfRangeException(nameof(length), length, "A block has 0 bytes or more.")
        : Of(new byte[length]);

    /// <summary>A field's raw value; null when the block ends before it, or a bit of it was not shown.</summary>
    public uint? Get(BlockField field) => field.End <= Length && field.Bits.Get(Word(known, field)) == field.Bits.Maximum
        ? field.Bits.Get(Word(bytes, field))
        : null;

    /// <summary>A field's value in its unit, for fields that fit an int; null as of <see cref="Get"/>.</summary>
    public int? GetScaled(BlockField field) => Get(field) is { } raw ? checked((int)raw * field.Bits.Scale) : null;

    /// <summary>Whether a one-bit field is set; null as of <see cref="Get"/>.</summary>
    public bool? GetFlag(BlockField field) => Get(field) is { } raw ? raw != 0 : null;

    /// <summary>The number that holds the field, and which of its bits are known; null when the block ends before it.</summary>
    public (uint Word, uint Known)? WordOf(BlockField field) =>
        field.End <= Length ? (Word(bytes, field), Word(known, field)) : null;

    /// <summary>The same block with one field replaced by a raw value, and known.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The block is too short, or the value does not fit the field.</exception>
    public DataBlock With(BlockField field, uint raw)
    {
        if (field.End > Length)
        {
            throw new ArgumentOutOfRangeException(nameof(field), field.Name, $"The block has {Length} bytes only.");
        }

        return new DataBlock(
            Put(bytes, field, field.Bits.Set(Word(bytes, field), raw)),
            Put(known, field, field.Bits.Set(Word(known, field), field.Bits.Maximum)));
    }

    /// <summary>The same block with one field replaced by a value in its unit, and known.</summary>
    /// <exception cref="ArgumentOutOfRangeException">As of <see cref="With"/>, or not a whole number of steps.</exception>
    public DataBlock WithScaled(BlockField field, int value) =>
        With(field, field.Bits.Get(field.Bits.SetScaled(0, value)));

    /// <summary>The bytes from an offset on as a block; empty when there are none.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The offset is negative.</exception>
    public DataBlock From(int offset) => offset >= Length ? Blank(0) : new DataBlock(bytes[offset..], known[offset..]);

    /// <inheritdoc/>
    public bool Equals(DataBlock? other) =>
        other is not null && Bytes.SequenceEqual(other.Bytes) && Known.SequenceEqual(other.Known);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as DataBlock);

    /// <inheritdoc/>
    public override int GetHashCode()
    {
        HashCode hash = default;
        hash.AddBytes(Bytes);
        hash.AddBytes(Known);
        return hash.ToHashCode();
    }

    /// <summary>The bytes in hexadecimal.</summary>
    public override string ToString() => Convert.ToHexString(Bytes);

    private static uint Word(ImmutableArray<byte> from, BlockField field)
    {
        uint word = 0;
        for (int i = field.Length - 1; i >= 0; i--)
        {
            word = (word << 8) | from[field.Offset + i];
        }

        return word;
    }

    private static ImmutableArray<byte> Put(ImmutableArray<byte> into, BlockField field, uint word)
    {
        ImmutableArray<byte>.Builder builder = into.ToBuilder();
        for (int i = 0; i < field.Length; i++)
        {
            builder[field.Offset + i] = (byte)(word >> (8 * i));
        }

        return builder.ToImmutable();
    }
}
