using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Limits;

/// <summary>A voltage range that a capability may cover, ends included, and the editions that know it.</summary>
/// <param name="Nominal">The voltage that the range is named after, as in "9 V Prog".</param>
/// <param name="Minimum">Lower end.</param>
/// <param name="Maximum">Upper end.</param>
/// <param name="Editions">Where it is, or may be, standard.</param>
public readonly record struct VoltageRange(Voltage Nominal, Voltage Minimum, Voltage Maximum, Editions Editions);

/// <summary>The ranges of programmable (PPS) and adjustable (AVS) supplies.</summary>
/// <remarks>
/// The maxima of PPS never changed. The minimum was 3.0 V in the first R3.0 versions and 3.3 V later, and is 5.0 V in
/// R3.2v1.1, which has no 5 V Prog any more. The version in which the minimum rose is not confirmed, so R3.1 is
/// listed with both.
/// </remarks>
public static class AdjustableRanges
{
    /// <summary>R3.2v1.1, Table 10.11: other limits are not to be advertised.</summary>
    public static IReadOnlyList<VoltageRange> PpsFrom5V { get; } =
    [
        Range(9_000, 5_000, 11_000, Editions.R31 | Editions.R32),
        Range(15_000, 5_000, 16_000, Editions.R31 | Editions.R32),
        Range(20_000, 5_000, 21_000, Editions.R31 | Editions.R32),
    ];

    /// <summary>R3.0 and, up to a version that is not confirmed, R3.1.</summary>
    public static IReadOnlyList<VoltageRange> PpsFrom3V3 { get; } =
    [
        Range(5_000, 3_300, 5_900, Editions.R30 | Editions.R31),
        Range(9_000, 3_300, 11_000, Editions.R30 | Editions.R31),
        Range(15_000, 3_300, 16_000, Editions.R30 | Editions.R31),
        Range(20_000, 3_300, 21_000, Editions.R30 | Editions.R31),
    ];

    /// <summary>The minimum of the first R3.0 versions; which ones is not confirmed.</summary>
    public static readonly Voltage EarliestPpsMinimum = Voltage.FromMillivolts(3_000);

    /// <summary>SPR AVS (R3.2v1.1, Table 10.2): up to 15 V for 27 W &lt; PDP ≤ 45 W, up to 20 V above.</summary>
    public static IReadOnlyList<VoltageRange> SprAvs { get; } =
    [
        Range(15_000, 9_000, 15_000, Editions.R32), Range(20_000, 9_000, 20_000, Editions.R32),
    ];

    /// <summary>EPR AVS (R3.2v1.1, Table 10.12): by PDP up to 140, 180 and 240 W.</summary>
    public static IReadOnlyList<VoltageRange> EprAvs { get; } =
    [
        Range(28_000, 15_000, 28_000, Editions.R31 | Editions.R32),
        Range(36_000, 15_000, 36_000, Editions.R31 | Editions.R32),
        Range(48_000, 15_000, 48_000, Editions.R31 | Editions.R32),
    ];

    private static VoltageRange Range(int nominal, int minimum, int maximum, Editions editions) => new(
        Voltage.FromMillivolts(nominal), Voltage.FromMillivolts(minimum), Voltage.FromMillivolts(maximum), editions);
}
