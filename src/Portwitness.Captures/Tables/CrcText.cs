using System.Buffers.Binary;
using System.Text;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Tables;

/// <summary>Reads what a table says of a CRC: "ok", "bad", or its four bytes as on the wire.</summary>
internal static class CrcText
{
    private const int MaxCharacters = 20;

    /// <summary>Reads a cell; false when it says neither.</summary>
    public static bool TryRead(ReadOnlySpan<byte> cell, ref uint? crc, out bool? isRight)
    {
        isRight = null;
        HexGroups groups = new(cell);
        if (groups.Next(out ReadOnlySpan<byte> digits) && digits.Length == 8 && !digits.ContainsAnyExcept(HexText.Digits))
        {
            Span<byte> bytes = stackalloc byte[4];
            Convert.FromHexString(digits, bytes, out _, out _);
            crc = BinaryPrimitives.ReadUInt32LittleEndian(bytes);
            return true;
        }

        isRight = cell.Length > MaxCharacters ? null : Encoding.UTF8.GetString(cell).ToLowerInvariant() switch
        {
            "ok" or "good" or "pass" or "valid" or "true" or "1" or "yes" => true,
            "bad" or "error" or "fail" or "invalid" or "false" or "0" or "no" => false,
            _ => null,
        };
        return isRight is not null;
    }
}
