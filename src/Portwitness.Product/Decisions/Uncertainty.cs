namespace Portwitness.Product.Decisions;

/// <summary>
/// Uncertainty of what meters read, by the GUM: what a data sheet states is a limit with a rectangular distribution, u = a / √3; contributions
/// combine by the root of the sum of their squares, each times its sensitivity; U = 2 u (k = 2). In the unit of the quantity, rounded up.
/// </summary>
public static class Uncertainty
{
    /// <summary>The coverage factor: some 95 % for a normal distribution.</summary>
    public const int CoverageFactor = 2;

    /// <summary>Of one limit.</summary>
    /// <param name="limit">The reading may be off by so much, at most.</param>
    public static long Expanded(long limit) => Expanded([(1, limit)]);

    /// <summary>Of several contributions that have nothing to do with each other.</summary>
    /// <param name="contributions">By how much the result changes when the contribution changes by one, and the limit of that contribution.</param>
    public static long Expanded(ReadOnlySpan<(double Sensitivity, double Limit)> contributions)
    {
        double squares = 0;
        foreach ((double sensitivity, double limit) in contributions)
        {
            squares += sensitivity * limit * sensitivity * limit / 3;
        }

        // What rounding of the root adds is no part of it.
        double expanded = CoverageFactor * Math.Sqrt(squares);
        return expanded >= long.MaxValue ? long.MaxValue : (long)Math.Ceiling(expanded - 1e-6);
    }
}
