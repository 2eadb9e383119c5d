using System.Numerics;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Sampling;

namespace Portwitness.Reports.Comparing;

/// <summary>
/// Mean, standard deviation and outliers of one quantity, in integers. An outlier has a modified z-score beyond 3.5 (NIST/SEMATECH
/// e-Handbook of Statistical Methods, 1.3.5.17: 0.6745 times the distance from the median over the median of such distances); the 0.6745 is
/// taken as 6745 ten-thousandths. Below five samples outliers are not told.
/// </summary>
internal static class SpreadStatistics
{
    private const int LeastForLimits = 3;
    private const int LeastForOutliers = 5;
    private const int MaxOutliers = 20;

    /// <summary>The spread of a quantity.</summary>
    public static SpreadQuantity Of(QuantityKey key, IReadOnlyList<(Quantity Quantity, string Sample)> quantities)
    {
        (long Value, string Sample)[] values = [.. quantities.Select(static one => (one.Quantity.Value, one.Sample))];
        BigInteger n = values.Length;
        BigInteger sum = values.Aggregate(BigInteger.Zero, static (total, one) => total + one.Value);
        SpreadQuantity quantity = new()
        {
            Port = key.Port, InUse = { PortsInUse.Of(key.InUse) }, About = key.About, Unit = key.Unit, Samples = values.Length,
            MeanThousandths = (long)Rounded(sum * 1000, n), Least = values.Min(static one => one.Value), Most = values.Max(static one => one.Value),
        };
        if (values.Length > 1)
        {
            // (sum of squares − sum²/n) / (n − 1), over one denominator.
            BigInteger squares = values.Aggregate(BigInteger.Zero, static (total, one) => total + ((BigInteger)one.Value * one.Value));
            quantity.DeviationThousandths = (long)Root(((squares * n) - (sum * sum)) * 1_000_000, n * (n - 1));
        }

        if (values.Length >= LeastForOutliers)
        {
            quantity.Outliers.AddRange(Outliers(values).Take(MaxOutliers));
        }

        if (values.Length >= LeastForLimits && quantity.DeviationThousandths > 0)
        {
            SetLimits(quantity, quantities);
        }

        return quantity;
    }

    // Values that are all alike are coarser than their spread, and say nothing of it. Factors of statistics are no quantities of USB PD; limits are rounded away from the mean.
    private static void SetLimits(SpreadQuantity quantity, IReadOnlyList<(Quantity Quantity, string Sample)> quantities)
    {
        double reach = ToleranceFactors.BothSides(quantities.Count) * quantity.DeviationThousandths;
        quantity.ToleranceLeastThousandths = (long)Math.Floor(quantity.MeanThousandths - reach);
        quantity.ToleranceMostThousandths = (long)Math.Ceiling(quantity.MeanThousandths + reach);
        (long? least, long? most) = quantities[0].Quantity.Allowed;
        if ((least ?? most) is null || quantities.Any(one => one.Quantity.Allowed != (least, most)))
        {
            return;
        }

        if (least is { } lower)
        {
            quantity.AllowedLeast = lower;
        }

        if (most is { } upper)
        {
            quantity.AllowedMost = upper;
        }

        if (Capability.Cpk(quantity.MeanThousandths, quantity.DeviationThousandths, least * 1000.0, most * 1000.0) is { } cpk)
        {
            quantity.CpkThousandths = (long)Math.Round(cpk * 1000);
            quantity.CpkLeastThousandths = (long)Math.Floor(Capability.AtLeast(cpk, quantities.Count) * 1000);
        }
    }

    // Twice the median, so that the middle of two values needs no fraction.
    private static IEnumerable<string> Outliers(IReadOnlyList<(long Value, string Sample)> values)
    {
        long median = TwiceMedian([.. values.Select(static one => one.Value)]);
        long spread = TwiceMedian([.. values.Select(one => Math.Abs((2 * one.Value) - median))]);
        foreach ((long value, string sample) in values)
        {
            // 0.6745 |x − median| / MAD > 3.5; with half of all values alike there is no scale to hold the rest against.
            if (spread > 0 && (BigInteger)6745 * 2 * Math.Abs((2 * value) - median) > (BigInteger)35000 * spread)
            {
                yield return sample;
            }
        }
    }

    private static long TwiceMedian(long[] values)
    {
        Array.Sort(values);
        return values[values.Length / 2] + values[(values.Length - 1) / 2];
    }

    private static BigInteger Rounded(BigInteger dividend, BigInteger divisor) =>
        BigInteger.Divide((2 * dividend) + (dividend.Sign < 0 ? -divisor : divisor), 2 * divisor);

    // The square root of a quotient, rounded to the nearest whole number.
    private static BigInteger Root(BigInteger dividend, BigInteger divisor)
    {
        BigInteger target = 4 * dividend / divisor;
        if (target.IsZero)
        {
            return 0;
        }

        BigInteger root = BigInteger.One << (int)((target.GetBitLength() + 1) / 2);
        for (BigInteger next = (root + (target / root)) / 2; next < root; next = (root + (target / root)) / 2)
        {
            root = next;
        }

        return (root + 1) / 2;
    }
}
