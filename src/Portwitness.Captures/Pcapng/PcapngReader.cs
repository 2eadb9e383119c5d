using System.Buffers.Binary;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Pcapng;

/// <summary>
/// Reads pcapng (draft-ietf-opsawg-pcapng) whose packets are records as captures/FORMAT.md defines them. A block that
/// lies in one piece is read where it is; one that does not is held up to a limit, and grows only with what has come.
/// </summary>
internal sealed class PcapngReader : IInputReader
{
    /// <summary>How many bytes tell such a file.</summary>
    public const int BytesToTell = 12;

    /// <summary>Type, two lengths (3.1 of the draft).</summary>
    private const int FrameBytes = 12;

    private const int SectionHeaderBytes = 28;

    /// <summary>The longest block that is read; the longest that is written here has a quarter of it.</summary>
    private const int MaxBlockBytes = 512 << 10;

    private readonly FaultLog _faults;
    private readonly PortSelection _ports;
    private readonly PacketReading _packets;
    private byte[] _held = [];
    private int _length;
    private long _offset;
    private long _skip;
    private bool _bigEndian;
    private bool _sectionBegun;
    private bool _stopped;
    private long _unknownBlocks;
    private uint _unknownType;

    public PcapngReader(ICaptureSink sink, FaultLog faults, string? port)
    {
        _faults = faults;
        _ports = new PortSelection(sink, faults, port);
        _packets = new PacketReading(new RecordReading(sink, faults), _ports, faults);
    }

    /// <summary>Whether an input begins as such a file does.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> start) => start.Length >= BytesToTell
        && BinaryPrimitives.ReadUInt32LittleEndian(start) == BlockTypes.SectionHeader
        && (BinaryPrimitives.ReadUInt32LittleEndian(start[8..]) == BlockTypes.ByteOrderMagic
            || BinaryPrimitives.ReadUInt32BigEndian(start[8..]) == BlockTypes.ByteOrderMagic);

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> piece)
    {
        while (!piece.IsEmpty && !_stopped)
        {
            if (_skip > 0)
            {
                int skipped = (int)Math.Min(_skip, piece.Length);
                (_skip, _offset) = (_skip - skipped, _offset + skipped);
                piece = piece[skipped..];
                continue;
            }

            int taken = _length > 0 ? 0 : ReadBlocks(piece);
            piece = piece[taken..];
            if (_skip == 0 && !_stopped && taken == 0)
            {
                piece = piece[Hold(piece)..];
            }
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        if (!_stopped && (_length > 0 || _skip > 0))
        {
            _faults.Report(0, 0, FaultCodes.PcapngCut, FaultText.PcapngCut(_offset));
        }

        if (_unknownBlocks > 0)
        {
            _faults.Report(0, 0, FaultCodes.PcapngBlocksUnknown, FaultText.PcapngBlocksUnknown(_unknownBlocks, _unknownType));
        }

        _ports.Complete();
    }

    /// <summary>Reads as many whole blocks as there are, and says how many bytes they took.</summary>
    private int ReadBlocks(ReadOnlySpan<byte> bytes)
    {
        int used = 0;
        while (!_stopped && _skip == 0)
        {
            ReadOnlySpan<byte> rest = bytes[used..];
            if (!TryLength(rest, out int length) || _skip > 0 || rest.Length < length)
            {
                break;
            }

            ReadBlock(rest[..length]);
            used += length;
            _offset += length;
        }

        return used;
    }

    /// <summary>Holds what is needed for the next block, and reads it when it is whole.</summary>
    private int Hold(ReadOnlySpan<byte> piece)
    {
        int wanted = FrameBytes;
        if (_length >= FrameBytes && !TryLength(_held.AsSpan(0, _length), out wanted))
        {
            return 0;
        }

        int taken = Math.Min(piece.Length, wanted - _length);
        if (_length + taken > _held.Length)
        {
            Array.Resize(ref _held, Math.Max(_length + taken, Math.Min(2 * _held.Length, MaxBlockBytes)));
        }

        piece[..taken].CopyTo(_held.AsSpan(_length));
        _length += taken;
        if (_length < FrameBytes || !TryLength(_held.AsSpan(0, _length), out int length))
        {
            return taken;
        }

        if (_skip > 0)
        {
            // What is held of a block that is passed over is passed over too.
            (_skip, _offset, _length) = (_skip - _length, _offset + _length, 0);
        }
        else if (_length == length)
        {
            _length = 0;
            ReadBlock(_held.AsSpan(0, length));
            _offset += length;
        }

        return taken;
    }

    /// <summary>The length of the block that begins here; false when there are too few bytes to tell, or when it has none.</summary>
    private bool TryLength(ReadOnlySpan<byte> block, out int length)
    {
        length = 0;
        if (block.Length < FrameBytes)
        {
            return false;
        }

        uint type = BinaryPrimitives.ReadUInt32LittleEndian(block);
        bool bigEndian = _bigEndian;
        if (type == BlockTypes.SectionHeader)
        {
            bigEndian = BinaryPrimitives.ReadUInt32BigEndian(block[8..]) == BlockTypes.ByteOrderMagic;
            if (!bigEndian && BinaryPrimitives.ReadUInt32LittleEndian(block[8..]) != BlockTypes.ByteOrderMagic)
            {
                return Stop(FaultText.PcapngByteOrder(_offset));
            }
        }

        uint stated = bigEndian ? BinaryPrimitives.ReadUInt32BigEndian(block[4..]) : BinaryPrimitives.ReadUInt32LittleEndian(block[4..]);
        if (stated < (type == BlockTypes.SectionHeader ? SectionHeaderBytes : FrameBytes) || stated % 4 != 0)
        {
            return Stop(FaultText.PcapngLength(_offset, stated));
        }

        if (stated > MaxBlockBytes)
        {
            PassOver(type, bigEndian, stated);
            return true;
        }

        length = (int)stated;
        return true;
    }

    private bool Stop(string detail)
    {
        _stopped = true;
        _faults.Report(0, 0, FaultCodes.PcapngBlockInvalid, detail);
        return false;
    }

    private void PassOver(uint type, bool bigEndian, uint length)
    {
        _skip = length;
        _faults.Report(0, 0, FaultCodes.PcapngBlockTooLong, FaultText.PcapngBlockTooLong(_offset, length));
        if (type == BlockTypes.SectionHeader)
        {
            BeginSection(bigEndian);
        }
        else if ((bigEndian ? BinaryPrimitives.ReverseEndianness(type) : type) == BlockTypes.InterfaceDescription)
        {
            // It keeps its number, so that the packets of those after it find theirs.
            _ports.Add(default, _offset);
        }
    }

    private void BeginSection(bool bigEndian)
    {
        (_bigEndian, _sectionBegun) = (bigEndian, true);
        _ports.BeginSection();
        _packets.BeginSection();
    }

    private void ReadBlock(ReadOnlySpan<byte> bytes)
    {
        if (BinaryPrimitives.ReadUInt32LittleEndian(bytes) == BlockTypes.SectionHeader)
        {
            BeginSection(BinaryPrimitives.ReadUInt32BigEndian(bytes[8..]) == BlockTypes.ByteOrderMagic);
        }

        PcapngBlock block = new(bytes, _bigEndian);
        if (block.U32(bytes.Length - 4) != bytes.Length || !_sectionBegun)
        {
            Stop(FaultText.PcapngLengthsDiffer(_offset, bytes.Length, block.U32(bytes.Length - 4)));
            return;
        }

        PcapngBlock body = block.Slice(8, bytes.Length - FrameBytes);
        switch (block.U32(0))
        {
            case BlockTypes.EnhancedPacket:
                _packets.ReadEnhanced(body, _offset);
                break;
            case BlockTypes.SimplePacket:
                _packets.ReadSimple(body, _offset);
                break;
            case BlockTypes.ObsoletePacket:
                _packets.ReadObsolete(body, _offset);
                break;
            case BlockTypes.InterfaceDescription:
                ReadInterface(body);
                break;
            case BlockTypes.InterfaceStatistics:
                _packets.ReadStatistics(body, _offset);
                break;
            case BlockTypes.SectionHeader:
                ReadVersion(body);
                break;
            case var other when !BlockTypes.IsPassedOver(other):
                _unknownType = _unknownBlocks++ == 0 ? other : _unknownType;
                break;
        }
    }

    private void ReadInterface(PcapngBlock body)
    {
        if (body.Length < PcapngInterface.FixedBytes)
        {
            _faults.Report(0, 0, FaultCodes.PcapngBlockInvalid, FaultText.PcapngBlockTooShort(_offset));
        }

        _ports.Add(body, _offset);
    }

    // 1.2 is the same as 1.0 (4.1 of the draft); of another major version nothing is known.
    private void ReadVersion(PcapngBlock body)
    {
        if (body.U16(4) != 1)
        {
            Stop(FaultText.PcapngVersion(_offset, body.U16(4), body.U16(6)));
        }
    }
}
