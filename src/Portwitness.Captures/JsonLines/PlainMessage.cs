using System.Buffers;
using System.Buffers.Binary;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.JsonLines;

/// <summary>
/// Reads a message's line in the form that this program writes, <c>{"t":0,"sop":"SOP","hex":"8100","crc":"F5BB4163","crc_ok":true}</c>,
/// without taking JSON apart: such lines are nearly all of a large file. Any other line, and any fault, is left to
/// <see cref="RecordLine"/>, which reads these to the same.
/// </summary>
internal sealed class PlainMessage
{
    // Far above any time of a capture, and far below what overflows.
    private const int MaxTimeDigits = 16;

    private readonly byte[] _bytes = new byte[CaptureLimits.MaximumMessageBytes];

    /// <summary>Reads a line; false when it has another form. The record lives until the next line.</summary>
    public bool TryRead(long line, ReadOnlySpan<byte> text, out MessageRecord message)
    {
        message = default;
        if (!Skip(ref text, "{\"t\":"u8) || !Number(ref text, out long time) || time > CaptureLimits.MaximumTimeUs
            || !Skip(ref text, ",\"sop\":\"SOP"u8))
        {
            return false;
        }

        SopKind sop = Skip(ref text, "'"u8) ? Skip(ref text, "'"u8) ? SopKind.SopDoublePrime : SopKind.SopPrime : SopKind.Sop;
        if (!Skip(ref text, "\",\"hex\":\""u8) || !Hex(ref text, _bytes, out int length) || length < CaptureLimits.MinimumMessageBytes)
        {
            return false;
        }

        uint? crc = null;
        Span<byte> four = stackalloc byte[4];
        if (Skip(ref text, ",\"crc\":\""u8))
        {
            if (!Hex(ref text, four, out int read) || read != four.Length)
            {
                return false;
            }

            // Sent least significant byte first (R3.2v1.1, 5.6.2).
            crc = BinaryPrimitives.ReadUInt32LittleEndian(four);
        }

        bool? crcOk = Skip(ref text, ",\"crc_ok\":true"u8) ? true : Skip(ref text, ",\"crc_ok\":false"u8) ? false : null;
        if (!text.SequenceEqual("}"u8))
        {
            return false;
        }

        message = new MessageRecord
        {
            TimeUs = time, Line = line, Sop = sop, Bytes = _bytes.AsSpan(0, length), Crc = crc, CrcOk = crcOk,
        };
        return true;
    }

    private static bool Skip(ref ReadOnlySpan<byte> text, ReadOnlySpan<byte> expected)
    {
        if (!text.StartsWith(expected))
        {
            return false;
        }

        text = text[expected.Length..];
        return true;
    }

    // As JSON writes them: no sign, no zero before other digits.
    private static bool Number(ref ReadOnlySpan<byte> text, out long number)
    {
        number = 0;
        int digits = 0;
        while (digits < text.Length && digits <= MaxTimeDigits && text[digits] is >= (byte)'0' and <= (byte)'9')
        {
            number = (number * 10) + (text[digits++] - '0');
        }

        bool isPlain = digits is > 0 and <= MaxTimeDigits && (text[0] != '0' || digits == 1);
        text = text[digits..];
        return isPlain;
    }

    // Digits up to the quote, which is taken too.
    private static bool Hex(ref ReadOnlySpan<byte> text, scoped Span<byte> bytes, out int length)
    {
        length = 0;
        int quote = text.IndexOf((byte)'"');
        if (quote < 0 || Convert.FromHexString(text[..quote], bytes, out int used, out length) != OperationStatus.Done || used != quote)
        {
            return false;
        }

        text = text[(quote + 1)..];
        return true;
    }
}
