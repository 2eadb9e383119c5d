using System.Buffers.Binary;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Captures.Tables;

/// <summary>
/// Reads a message from its cell or cells: bytes in the order on the wire, or numbers: a 16-bit header and 32-bit words.
/// Which of the two it is shows in how digits are grouped; where it does not, in the count that the header itself states.
/// </summary>
internal sealed class MessageCells
{
    private readonly byte[] _bytes = new byte[CaptureLimits.MaximumMessageBytes + MessageCrc.Length];
    private int _length;
    private bool _lastWasNumbers;

    /// <summary>Header and payload.</summary>
    public ReadOnlySpan<byte> Bytes => _bytes.AsSpan(0, _length);

    /// <summary>The CRC, when the cell ended in the right one.</summary>
    public uint? Crc { get; private set; }

    /// <summary>Reads a message; null when it was read, else the code of what is wrong.</summary>
    /// <param name="hex">The cell with the message, or with its payload.</param>
    /// <param name="header">The cell with the header; empty when there is none of its own.</param>
    public string? Read(ReadOnlySpan<byte> hex, ReadOnlySpan<byte> header)
    {
        (_length, Crc) = (0, null);
        string? problem = header.IsEmpty ? ReadWhole(hex) : ReadParts(hex, header);
        if (problem is null && _length is < CaptureLimits.MinimumMessageBytes or > CaptureLimits.MaximumMessageBytes + MessageCrc.Length)
        {
            return FaultCodes.HexLength;
        }

        if (problem is null && _length >= CaptureLimits.MinimumMessageBytes + MessageCrc.Length && MessageCrc.IsRight(Bytes))
        {
            _length -= MessageCrc.Length;
            Crc = BinaryPrimitives.ReadUInt32LittleEndian(_bytes.AsSpan(_length));
        }

        return problem ?? (_length > CaptureLimits.MaximumMessageBytes ? FaultCodes.HexLength : null);
    }

    private string? ReadWhole(ReadOnlySpan<byte> cell)
    {
        HexGroups groups = new(cell);
        if (!groups.Survey())
        {
            return FaultCodes.HexInvalid;
        }

        if (groups is { Count: 1, First: 4 })
        {
            Span<byte> two = stackalloc byte[2];
            groups.Next(out ReadOnlySpan<byte> digits);
            Convert.FromHexString(digits, two, out _, out _);
            bool asNumber = IsAlone(BinaryPrimitives.ReadUInt16BigEndian(two));
            bool asBytes = IsAlone(BinaryPrimitives.ReadUInt16LittleEndian(two));
            _lastWasNumbers = asNumber == asBytes ? _lastWasNumbers : asNumber;
            if (_lastWasNumbers)
            {
                two.Reverse();
            }

            return Append(two);
        }

        _lastWasNumbers = groups is { First: 4, AllOthersAreWords: true };
        return _lastWasNumbers ? AppendNumbers(groups) : AppendBytes(groups);
    }

    private string? ReadParts(ReadOnlySpan<byte> hex, ReadOnlySpan<byte> header)
    {
        HexGroups first = new(header);
        HexGroups rest = new(hex);
        if (!first.Survey() || first is not { Count: 1, First: 4 } || !rest.Survey())
        {
            return FaultCodes.HexInvalid;
        }

        first.Next(out ReadOnlySpan<byte> digits);
        Span<byte> two = stackalloc byte[2];
        Convert.FromHexString(digits, two, out _, out _);
        two.Reverse();
        string? problem = Append(two);
        if (problem is not null || rest.Count == 0)
        {
            return problem;
        }

        if (rest is { First: 8, AllOthersAreWords: true })
        {
            return AppendNumbers(rest);
        }

        // Some tables repeat the header in front of the payload.
        problem = AppendBytes(rest);
        MessageHeader stated = new(BinaryPrimitives.ReadUInt16LittleEndian(two));
        if (problem is null && _length == 4 + (4 * stated.ObjectCount) && _bytes.AsSpan(2).StartsWith(two))
        {
            _bytes.AsSpan(2, _length - 2).CopyTo(_bytes);
            _length -= 2;
        }

        return problem;
    }

    // A header of a message that is nothing but a header: no objects, not extended.
    private static bool IsAlone(ushort header) => (header & 0xF000) == 0;

    private string? AppendNumbers(HexGroups groups)
    {
        Span<byte> number = stackalloc byte[4];
        while (groups.Next(out ReadOnlySpan<byte> digits))
        {
            Convert.FromHexString(digits, number, out _, out int length);
            number[..length].Reverse();
            if (Append(number[..length]) is { } problem)
            {
                return problem;
            }
        }

        return null;
    }

    private string? AppendBytes(HexGroups groups)
    {
        while (groups.Next(out ReadOnlySpan<byte> digits))
        {
            if (digits.Length % 2 != 0)
            {
                return FaultCodes.HexInvalid;
            }

            if (digits.Length / 2 > _bytes.Length - _length)
            {
                return FaultCodes.HexLength;
            }

            Convert.FromHexString(digits, _bytes.AsSpan(_length), out _, out int length);
            _length += length;
        }

        return null;
    }

    private string? Append(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length > _bytes.Length - _length)
        {
            return FaultCodes.HexLength;
        }

        bytes.CopyTo(_bytes.AsSpan(_length));
        _length += bytes.Length;
        return null;
    }
}
