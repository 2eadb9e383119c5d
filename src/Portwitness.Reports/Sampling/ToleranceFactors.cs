using System.Collections.Concurrent;

namespace Portwitness.Reports.Sampling;

/// <summary>
/// Factors of tolerance limits: mean ± k standard deviations of n samples of a normal distribution hold a share of all with a given
/// confidence (NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3; here without its approximations).
/// </summary>
internal static class ToleranceFactors
{
    private const int MaxSamples = 10_000;

    private static readonly ConcurrentDictionary<int, double> Usual = new();

    /// <summary>k for both sides, 95 % of all with 95 % confidence.</summary>
    /// <param name="samples">2 or more; beyond 10,000 the factor of 10,000, which is the larger one.</param>
    public static double BothSides(int samples) => Usual.GetOrAdd(Math.Min(samples, MaxSamples), static n => BothSides(n, 0.95, 0.95));

    /// <summary>k for one side: so much lies above mean − k·s, or below mean + k·s.</summary>
    /// <param name="samples">2 or more.</param>
    /// <param name="share">Of all, between 0 and 1.</param>
    /// <param name="confidence">Between 0 and 1.</param>
    public static double OneSide(int samples, double share, double confidence)
    {
        double z = Distributions.NormalQuantile(share);
        double root = Math.Sqrt(samples);
        int freedom = samples - 1;
        double scale = Math.Log(2) + (freedom / 2.0 * Math.Log(freedom / 2.0)) - Distributions.LogGamma(freedom / 2.0);
        (double least, double most) = (Math.Max(0, 1 - (10 / Math.Sqrt(2 * freedom))), 1 + (10 / Math.Sqrt(2 * freedom)));

        // s/σ is distributed as the root of a chi-square over its freedom.
        double Density(double ratio) => ratio > 0 ? Math.Exp(scale + ((freedom - 1) * Math.Log(ratio)) - (freedom * ratio * ratio / 2))
            : freedom == 1 ? Math.Exp(scale) : 0;
        return Distributions.Root(0, 1000, k => Distributions.Integral(
            least, most, 1000, ratio => Distributions.Normal(root * ((k * ratio) - z)) * Density(ratio)) - confidence);
    }

    /// <summary>k for both sides.</summary>
    /// <param name="samples">2 or more.</param>
    /// <param name="share">Of all, between 0 and 1.</param>
    /// <param name="confidence">Between 0 and 1.</param>
    public static double BothSides(int samples, double share, double confidence)
    {
        const int panels = 200;
        int freedom = samples - 1;
        double width = 8 / Math.Sqrt(samples);

        // Half of the interval that holds the share, for each place of the mean.
        double[] halves = [.. Enumerable.Range(0, panels + 1).Select(at => width * at / panels).Select(mean => Distributions.Root(
            0, 50, half => Distributions.Normal(mean + half) - Distributions.Normal(mean - half) - share))];
        double Covered(double k) => 2 * Distributions.Integral(0, width, panels, mean =>
        {
            double half = halves[(int)Math.Round(mean * panels / width)];
            return Math.Sqrt(samples / (2 * Math.PI)) * Math.Exp(-samples * mean * mean / 2) * Distributions.ChiSquareAbove(freedom * half * half / (k * k), freedom);
        });
        return Distributions.Root(0.01, 1000, k => Covered(k) - confidence);
    }
}
