using System.Globalization;

namespace Portwitness.Reports.Sampling;

/// <summary>
/// A plan of acceptance by attributes: single sampling, normal inspection, level II, of the tables that MIL-STD-105E printed and ISO 2859-1
/// has as well (both restated by others here: second-hand).
/// </summary>
/// <param name="Letter">Code letter of the plan that is used, after its arrows; '-' where the whole lot is inspected.</param>
/// <param name="Units">To be drawn.</param>
/// <param name="Accept">Accepted with at most so many failing.</param>
public sealed record LotPlan(char Letter, int Units, int Accept)
{
    /// <summary>Largest lot of the tables.</summary>
    public const int MaxLot = 35_000;

    /// <summary>Acceptance quality limits of the tables, in per cent.</summary>
    public static readonly IReadOnlyList<string> Limits = ["0.65", "1.0", "1.5", "2.5", "4.0", "6.5"];

    // "v" is the first plan below, "^" the first one above; otherwise how many may fail.
    private static readonly (char Letter, int MaxLot, int Units, string[] Accept)[] Table =
    [
        ('A', 8, 2, ["v", "v", "v", "v", "v", "0"]),
        ('B', 15, 3, ["v", "v", "v", "v", "0", "^"]),
        ('C', 25, 5, ["v", "v", "v", "0", "^", "v"]),
        ('D', 50, 8, ["v", "v", "0", "^", "v", "1"]),
        ('E', 90, 13, ["v", "0", "^", "v", "1", "2"]),
        ('F', 150, 20, ["0", "^", "v", "1", "2", "3"]),
        ('G', 280, 32, ["^", "v", "1", "2", "3", "5"]),
        ('H', 500, 50, ["v", "1", "2", "3", "5", "7"]),
        ('J', 1_200, 80, ["1", "2", "3", "5", "7", "10"]),
        ('K', 3_200, 125, ["2", "3", "5", "7", "10", "14"]),
        ('L', 10_000, 200, ["3", "5", "7", "10", "14", "21"]),
        ('M', 35_000, 315, ["5", "7", "10", "14", "21", "^"]),
    ];

    /// <summary>Whether all of the lot is inspected.</summary>
    public bool IsWhole => Letter == '-';

    /// <summary>Rejected with so many failing.</summary>
    public int Reject => Accept + 1;

    /// <summary>The plan for a lot.</summary>
    /// <param name="lot">Its units, 2 to <see cref="MaxLot"/>.</param>
    /// <param name="limit">One of <see cref="Limits"/>, by its place.</param>
    /// <exception cref="ArgumentOutOfRangeException">The tables have no such lot or limit.</exception>
    public static LotPlan For(int lot, int limit)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(lot, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(lot, MaxLot);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual((uint)limit, (uint)Limits.Count);
        int row = Array.FindIndex(Table, plan => lot <= plan.MaxLot);
        while (Table[row].Accept[limit] is "v" or "^")
        {
            row += Table[row].Accept[limit] == "v" ? 1 : -1;
        }

        (char letter, _, int units, string[] accept) = Table[row];
        return units >= lot ? new LotPlan('-', lot, 0) : new LotPlan(letter, units, int.Parse(accept[limit], CultureInfo.InvariantCulture));
    }
}
