namespace Portwitness.Analysis.Plots;

/// <summary>Measurements of a stretch of time, as a plot needs them. What was not measured is null.</summary>
/// <param name="FromUs">The first one, in microseconds.</param>
/// <param name="ToUs">The last one.</param>
/// <param name="LeastMillivolts">The smallest voltage.</param>
/// <param name="MostMillivolts">The largest voltage.</param>
/// <param name="LeastMilliamperes">The smallest current.</param>
/// <param name="MostMilliamperes">The largest current.</param>
public readonly record struct TraceSpan(
    long FromUs, long ToUs, int? LeastMillivolts, int? MostMillivolts, int? LeastMilliamperes, int? MostMilliamperes)
{
    /// <summary>Both as one.</summary>
    internal TraceSpan And(in TraceSpan other) => new(
        Math.Min(FromUs, other.FromUs), Math.Max(ToUs, other.ToUs),
        Least(LeastMillivolts, other.LeastMillivolts), Most(MostMillivolts, other.MostMillivolts),
        Least(LeastMilliamperes, other.LeastMilliamperes), Most(MostMilliamperes, other.MostMilliamperes));

    private static int? Least(int? one, int? other) => one is null || other is null ? one ?? other : Math.Min(one.Value, other.Value);

    private static int? Most(int? one, int? other) => one is null || other is null ? one ?? other : Math.Max(one.Value, other.Value);
}
