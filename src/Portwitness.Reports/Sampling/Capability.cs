using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Sampling;

/// <summary>How samples of a quantity lie between its limits; normally distributed, which nobody checked.</summary>
public static class Capability
{
    // k of Z1.9 for one limit, unknown deviation, normal inspection (its Table B-1, as a university's course prints it), by units.
    private static readonly (int Units, int Thousandths)[] OfOne =
        [(4, 1450), (5, 1530), (7, 1620), (10, 1720), (15, 1790), (20, 1820), (25, 1850), (35, 1890), (50, 1930)];

    private static readonly (int Units, int Thousandths)[] OfTwoAndAHalf = [(3, 1120), (5, 1240), (7, 1330), (10, 1410)];

    private static readonly double OneSided = Distributions.NormalQuantile(0.95);

    /// <summary>Cpk: the distance from the mean to the nearer limit, in three standard deviations; null without a limit or a deviation.</summary>
    /// <param name="mean">In any unit.</param>
    /// <param name="deviation">In the same, of the samples.</param>
    /// <param name="least">Lower limit; null for none.</param>
    /// <param name="most">Upper limit; null for none.</param>
    public static double? Cpk(double mean, double deviation, double? least, double? most) => deviation <= 0 || (least ?? most) is null ? null
        : Math.Min((most ?? double.PositiveInfinity) - mean, mean - (least ?? double.NegativeInfinity)) / (3 * deviation);

    /// <summary>What Cpk is at least, with so many standard deviations of confidence (Bissell's approximation; second-hand).</summary>
    public static double AtLeast(double cpk, int samples, double z) =>
        cpk - (Math.Abs(cpk) * z * Math.Sqrt((1 / (9 * samples * cpk * cpk)) + (1.0 / (2 * (samples - 1)))));

    /// <summary>What Cpk is at least with 95 % confidence, on one side.</summary>
    public static double AtLeast(double cpk, int samples) => cpk == 0 ? -OneSided / (3 * Math.Sqrt(samples)) : AtLeast(cpk, samples, OneSided);

    /// <summary>By variables, every measured quantity of several samples that has limits and that the table speaks of.</summary>
    public static IEnumerable<QuantityAcceptance> ByVariables(SampleSpread spread, string aqlPercent)
    {
        foreach (SpreadQuantity quantity in spread.Measured.Where(static quantity => quantity.HasCpkThousandths))
        {
            if (ByVariables(quantity.CpkThousandths / 1000.0, (int)quantity.Samples, aqlPercent) is { } verdict)
            {
                yield return new QuantityAcceptance
                {
                    Port = quantity.Port, InUse = { quantity.InUse }, About = quantity.About, Samples = quantity.Samples, Verdict = verdict,
                };
            }
        }
    }

    /// <summary>
    /// Acceptance by variables, each limit by itself: (limit − mean)/s of k or more. Between two numbers of units that the table has, a
    /// lot holds by the larger k and fails by the smaller one; null where the table says nothing.
    /// </summary>
    /// <param name="cpk">Cpk of the nearer limit.</param>
    /// <param name="samples">How many.</param>
    /// <param name="aqlPercent">"1.0" or "2.5".</param>
    public static Verdict? ByVariables(double cpk, int samples, string aqlPercent)
    {
        (int Units, int Thousandths)[] table = aqlPercent switch { "1.0" => OfOne, "2.5" => OfTwoAndAHalf, _ => [] };
        int above = Array.FindIndex(table, row => row.Units >= samples);
        if (table.Length == 0 || samples < table[0].Units || above < 0)
        {
            return null;
        }

        double distance = 3 * cpk * 1000;
        return distance >= table[above].Thousandths ? Verdict.Holds
            : distance < table[table[above].Units == samples ? above : above - 1].Thousandths ? Verdict.Fails : Verdict.CannotTell;
    }
}
