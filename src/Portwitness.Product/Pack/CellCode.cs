using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Portwitness.Product.Pack;

/// <summary>
/// The sizes that a cell's printed code may mean: letters and sizes of IEC 61960 ("INR19/66", "1ICP11/58/85"), or what the trade prints
/// ("18650", "606090"). The code says nothing of voltage and capacity. IEC sizes are rounded up, so that a cell is no larger.
/// </summary>
/// <remarks>Second-hand for IEC 61960; common practice, no source, for codes without slashes.</remarks>
public static partial class CellCode
{
    /// <summary>Every size that the code may mean, the usual reading first; none when it is no such code.</summary>
    public static ImmutableArray<CellSize> Read(string code)
    {
        string plain = code.Trim().ToUpperInvariant();
        if (Slashed().Match(plain) is { Success: true } iec)
        {
            (int first, int second) = (Number(iec.Groups[1].Value), Number(iec.Groups[2].Value));
            int thickness = iec.Groups[1].Value.StartsWith('T') ? first * 10 : first * 100;
            return [new CellSize(thickness, second * 100, iec.Groups[3].Success ? Number(iec.Groups[3].Value) * 100 : null)];
        }

        return Digits().Match(plain) is { Success: true } trade ? OfDigits(trade.Groups[1].Value) : [];
    }

    private static ImmutableArray<CellSize> OfDigits(string digits)
    {
        int Part(int from, int length) => Number(digits.Substring(from, length)) * 100;

        return digits.Length switch
        {
            // Two digits of diameter in mm, three of height in tenths.
            5 => [new CellSize(Part(0, 2), Part(2, 3) / 10, null)],

            // Thickness in tenths of a millimetre, or in whole ones.
            6 => [new CellSize(Part(0, 2) / 10, Part(2, 2), Part(4, 2)), new CellSize(Part(0, 2), Part(2, 2), Part(4, 2))],

            // Seven: either the length or the thickness has three.
            _ => [new CellSize(Part(0, 2) / 10, Part(2, 2), Part(4, 3)), new CellSize(Part(0, 3) / 10, Part(3, 2), Part(5, 2))],
        };
    }

    private static int Number(string digits) => int.Parse(digits.TrimStart('T'), CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^\d{0,2}[A-Z]{1,3} ?(T?\d{1,3})/(\d{1,3})(?:/(\d{1,3}))?(?:-.*)?$")]
    private static partial Regex Slashed();

    [GeneratedRegex(@"^(?:\d?[A-Z]{1,4}[ -]?)?(\d{5,7})(?:[A-Z -].*)?$")]
    private static partial Regex Digits();
}
