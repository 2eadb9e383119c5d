using System.Buffers.Binary;

namespace Portwitness.Captures.Pcapng;

/// <summary>A block's bytes with the byte order of its section.</summary>
internal readonly ref struct PcapngBlock(ReadOnlySpan<byte> bytes, bool bigEndian)
{
    /// <summary>The bytes.</summary>
    public ReadOnlySpan<byte> Bytes { get; } = bytes;

    /// <summary>How many there are.</summary>
    public int Length => Bytes.Length;

    public ushort U16(int at)
    {
        ReadOnlySpan<byte> field = Bytes[at..];
        return bigEndian ? BinaryPrimitives.ReadUInt16BigEndian(field) : BinaryPrimitives.ReadUInt16LittleEndian(field);
    }

    public uint U32(int at)
    {
        ReadOnlySpan<byte> field = Bytes[at..];
        return bigEndian ? BinaryPrimitives.ReadUInt32BigEndian(field) : BinaryPrimitives.ReadUInt32LittleEndian(field);
    }

    public ulong U64(int at)
    {
        ReadOnlySpan<byte> field = Bytes[at..];
        return bigEndian ? BinaryPrimitives.ReadUInt64BigEndian(field) : BinaryPrimitives.ReadUInt64LittleEndian(field);
    }

    /// <summary>The rest from an offset on; its end when there is less.</summary>
    public PcapngBlock From(int at) => new(Bytes[Math.Min(at, Bytes.Length)..], bigEndian);

    /// <summary>A part.</summary>
    public PcapngBlock Slice(int at, int length) => new(Bytes.Slice(at, length), bigEndian);

    /// <summary>The options that begin at an offset.</summary>
    public OptionReader Options(int at) => new(From(at));
}

/// <summary>Walks through the options of a block; a length that does not fit ends them.</summary>
internal ref struct OptionReader(PcapngBlock options)
{
    private PcapngBlock _rest = options;

    /// <summary>The code of the option stood on.</summary>
    public ushort Code { get; private set; }

    /// <summary>Its value.</summary>
    public PcapngBlock Value { get; private set; }

    /// <summary>Whether the options ended in the middle of one.</summary>
    public bool IsBroken { get; private set; }

    /// <summary>Goes to the next option; false when there is none.</summary>
    public bool Next()
    {
        if (_rest.Length < 4)
        {
            IsBroken = _rest.Length > 0;
            return false;
        }

        Code = _rest.U16(0);
        int length = _rest.U16(2);
        if (Code == BlockTypes.EndOfOptions)
        {
            return false;
        }

        if (length > _rest.Length - 4)
        {
            IsBroken = true;
            return false;
        }

        Value = _rest.Slice(4, length);
        _rest = _rest.From(4 + ((length + 3) & ~3));
        return true;
    }
}
