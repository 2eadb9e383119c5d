using System.Collections.Immutable;

namespace Portwitness.Product.Soaks;

/// <summary>
/// A row of the table of touch temperatures of IEC 62368-1 (Table 38, class TS1) with a material: the most that a surface may have at a room of 25 °C. Which
/// row a product falls under is its maker's analysis. All of it second-hand or from memory: it gives a caution at most.
/// </summary>
/// <param name="Row">"worn", "held", "gripped", "touched" or "untouched".</param>
/// <param name="Material">"metal", "glass", "plastic" or "wood".</param>
/// <param name="Millidegrees">The limit, in thousandths of a °C.</param>
public sealed record TouchRow(string Row, string Material, int Millidegrees)
{
    // Worn for over 8 h; held for 1 min to 8 h; gripped for 10 s to 1 min; touched for 1 to 10 s; for less than 1 s, need not be touched.
    private static readonly (string Row, int[] Degrees)[] Table =
    [
        ("worn", [43, 43, 43, 43]),
        ("held", [48, 48, 48, 48]),
        ("gripped", [51, 56, 60, 60]),
        ("touched", [60, 71, 77, 107]),
        ("untouched", [70, 85, 94, 140]),
    ];

    /// <summary>Materials, in the order of the table.</summary>
    public static ImmutableArray<string> Materials { get; } = ["metal", "glass", "plastic", "wood"];

    /// <summary>Rows, in the order of the table.</summary>
    public static ImmutableArray<string> Rows { get; } = [.. Table.Select(static row => row.Row)];

    /// <summary>A row with a material; null for other words.</summary>
    public static TouchRow? Of(string row, string material)
    {
        int column = Materials.IndexOf(material);
        int[]? degrees = Array.Find(Table, one => one.Row == row).Degrees;
        return column < 0 || degrees is null ? null : new TouchRow(row, material, degrees[column] * 1000);
    }
}
