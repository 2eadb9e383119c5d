using System.Buffers;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Tables;

/// <summary>Walks through groups of hexadecimal digits, "0x" and "h" taken off: "0x2161 0x0801912C" has two.</summary>
internal ref struct HexGroups(ReadOnlySpan<byte> cell)
{
    private static readonly SearchValues<byte> Between = SearchValues.Create(" \t,;:-_[](){}|"u8);

    private readonly ReadOnlySpan<byte> _cell = cell;
    private ReadOnlySpan<byte> _rest = cell;

    /// <summary>How many groups there are.</summary>
    public int Count { get; private set; }

    /// <summary>How many digits the first has.</summary>
    public int First { get; private set; }

    /// <summary>Whether there are others, and each has eight digits.</summary>
    public bool AllOthersAreWords { get; private set; }

    /// <summary>Counts the groups; false when one is not of digits, or mixed with others in a way that has no meaning.</summary>
    public bool Survey()
    {
        bool words = true;
        bool even = true;
        while (Next(out ReadOnlySpan<byte> digits))
        {
            if (digits.ContainsAnyExcept(HexText.Digits) || digits.IsEmpty)
            {
                return false;
            }

            First = Count == 0 ? digits.Length : First;
            words &= Count == 0 || digits.Length == 8;
            even &= digits.Length == 2;
            Count++;
        }

        _rest = _cell;
        AllOthersAreWords = words && (Count > 1 || First == 8);

        // One run of digits, bytes one by one, or a header and words; groups of another size could be either order.
        return Count <= 1 || even || (words && First is 4 or 8);
    }

    /// <summary>The next group's digits; false when there is none.</summary>
    public bool Next(out ReadOnlySpan<byte> digits)
    {
        digits = [];
        int start = _rest.IndexOfAnyExcept(Between);
        if (start < 0)
        {
            _rest = [];
            return false;
        }

        _rest = _rest[start..];
        int length = _rest.IndexOfAny(Between);
        digits = length < 0 ? _rest : _rest[..length];
        _rest = _rest[digits.Length..];
        digits = digits.StartsWith("0x"u8) || digits.StartsWith("0X"u8) ? digits[2..] : digits;
        digits = digits.Length % 2 == 1 && digits[^1] is (byte)'h' or (byte)'H' ? digits[..^1] : digits;
        return true;
    }
}
