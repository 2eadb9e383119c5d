using System.Buffers;
using System.Buffers.Binary;
using System.Text;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Pcapng;

/// <summary>The bytes of how well a frame was sent, and of a frame that broke, as captures/FORMAT.md lays them out.</summary>
internal static class FramePayload
{
    // Of a broken frame.
    public const byte HasBit = 0x01;
    public const byte HasBrokeAt = 0x02;
    public const byte HasSop = 0x04;
    public const byte HasQuality = 0x08;

    private const int MaxPartBytes = CaptureLimits.MaximumMessageBytes + MessageCrc.Length;

    /// <summary>Writes what is stated of seven numbers: a mask of those that are there, then each.</summary>
    public static void Write(IBufferWriter<byte> output, in FrameQuality quality)
    {
        ReadOnlySpan<int?> numbers =
        [
            quality.BitsPerSecond, quality.RateUncertainty, quality.DriftPpm, quality.JitterNs, quality.PreambleBits, quality.SetSymbols,
            quality.Glitches,
        ];
        Span<byte> bytes = output.GetSpan(1 + (4 * numbers.Length));
        int length = 1;
        bytes[0] = 0;
        for (int i = 0; i < numbers.Length; i++)
        {
            if (numbers[i] is { } number)
            {
                bytes[0] |= (byte)(1 << i);
                BinaryPrimitives.WriteInt32LittleEndian(bytes[length..], number);
                length += 4;
            }
        }

        output.Advance(length);
    }

    /// <summary>Takes them from the front, when they are there; false when they are not whole.</summary>
    public static bool TryTake(ref ReadOnlySpan<byte> rest, bool isThere, out FrameQuality quality)
    {
        quality = default;
        if (!isThere)
        {
            return true;
        }

        Span<int?> numbers = stackalloc int?[7];
        if (rest.IsEmpty || rest[0] >> numbers.Length != 0)
        {
            return false;
        }

        int mask = rest[0];
        rest = rest[1..];
        for (int i = 0; i < numbers.Length; i++)
        {
            numbers[i] = null;
            if ((mask & (1 << i)) != 0)
            {
                if (!TryNumber(ref rest, out int number))
                {
                    return false;
                }

                numbers[i] = number;
            }
        }

        quality = new FrameQuality(numbers[0], numbers[1], numbers[2], numbers[3], numbers[4], numbers[5], numbers[6]);
        return true;
    }

    /// <summary>Writes a frame that broke.</summary>
    public static void Write(IBufferWriter<byte> output, BrokenFrameRecord frame)
    {
        int flags = (frame.Bit is null ? 0 : HasBit) | (frame.BrokeAtUs is null ? 0 : HasBrokeAt) | (frame.Sop is null ? 0 : HasSop)
            | (frame.Quality.IsStated ? HasQuality : 0) | (frame.Extra is null ? 0 : RecordPayload.HasMembers);
        ReadOnlySpan<byte> part = frame.Part.AsSpan()[..Math.Min(frame.Part.Length, MaxPartBytes)];
        Span<byte> bytes = output.GetSpan(RecordPayload.PrefixBytes + 2);
        (bytes[0], bytes[1], bytes[2], bytes[3]) = (RecordPayload.Version, (byte)RecordKind.BrokenFrame, (byte)frame.Why, (byte)flags);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes[RecordPayload.PrefixBytes..], (ushort)part.Length);
        output.Advance(RecordPayload.PrefixBytes + 2);
        output.Write(part);
        if (frame.Bit is { } bit)
        {
            BinaryPrimitives.WriteInt32LittleEndian(output.GetSpan(4), bit);
            output.Advance(4);
        }

        if (frame.BrokeAtUs is { } brokeAt)
        {
            BinaryPrimitives.WriteInt64LittleEndian(output.GetSpan(8), brokeAt);
            output.Advance(8);
        }

        if (frame.Sop is { } sop)
        {
            output.Write([(byte)sop]);
        }

        if (frame.Quality.IsStated)
        {
            Write(output, frame.Quality);
        }

        output.Write(Encoding.UTF8.GetBytes(frame.Extra ?? ""));
    }

    /// <summary>Reads a frame that broke up to its members, which are left; null when it is none.</summary>
    public static BrokenFrameRecord? ReadBroken(ReadOnlySpan<byte> payload, long timeUs, long line, out ReadOnlySpan<byte> rest)
    {
        const int allFlags = RecordPayload.HasMembers | HasBit | HasBrokeAt | HasSop | HasQuality;
        rest = payload[RecordPayload.PrefixBytes..];
        byte flags = payload[3];
        if (payload[2] is 0 or > (byte)FrameBreak.RecordingStopped || (flags & ~allFlags) != 0
            || !BinaryPrimitives.TryReadUInt16LittleEndian(rest, out ushort length) || length > MaxPartBytes || rest.Length < 2 + length)
        {
            return null;
        }

        BrokenFrameRecord frame = new(timeUs, line, (FrameBreak)payload[2]) { Part = [.. rest.Slice(2, length)] };
        rest = rest[(2 + length)..];
        if ((flags & HasBit) != 0)
        {
            if (!TryNumber(ref rest, out int bit) || bit < 0)
            {
                return null;
            }

            frame = frame with { Bit = bit };
        }

        if ((flags & HasBrokeAt) != 0)
        {
            if (!BinaryPrimitives.TryReadInt64LittleEndian(rest, out long at) || at is < 0 or > CaptureLimits.MaximumTimeUs)
            {
                return null;
            }

            frame = frame with { BrokeAtUs = at };
            rest = rest[8..];
        }

        if ((flags & HasSop) != 0)
        {
            if (rest.IsEmpty || rest[0] > (byte)SopKind.SopDoublePrimeDebug)
            {
                return null;
            }

            frame = frame with { Sop = (SopKind)rest[0] };
            rest = rest[1..];
        }

        return TryTake(ref rest, (flags & HasQuality) != 0, out FrameQuality quality) ? frame with { Quality = quality } : null;
    }

    private static bool TryNumber(ref ReadOnlySpan<byte> rest, out int number)
    {
        bool isThere = BinaryPrimitives.TryReadInt32LittleEndian(rest, out number);
        rest = isThere ? rest[4..] : rest;
        return isThere;
    }
}
