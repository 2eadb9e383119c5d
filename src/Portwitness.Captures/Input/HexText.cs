using System.Buffers;

namespace Portwitness.Captures.Input;

/// <summary>Hexadecimal digits, in either case.</summary>
internal static class HexText
{
    public static readonly SearchValues<byte> Digits = SearchValues.Create("0123456789ABCDEFabcdef"u8);
}
