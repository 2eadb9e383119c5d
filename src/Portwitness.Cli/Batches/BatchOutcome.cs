using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Batches;

/// <summary>How one product of a batch came out.</summary>
/// <param name="Product">As the batch names it.</param>
/// <param name="Entry">What the journal notes.</param>
/// <param name="Report">Its report; null when it is as it was before.</param>
internal sealed record BatchOutcome(string Product, BatchEntry Entry, ProductReport? Report)
{
    /// <summary>Whether it was not checked again.</summary>
    public bool Skipped => Report is null;

    /// <summary>Whether it was judged, and its report could not be written.</summary>
    public bool IsUnwritten { get; init; }

    /// <summary>What stands for a report that could not be written; null for one that is in its file.</summary>
    public ProductReport? Substitute => IsUnwritten ? Report : null;

    /// <summary>What a product is told of that cannot be read.</summary>
    public static ProductReport ReportOf(string product, string problem) => new()
    {
        Product = product,
        Verdict = Verdict.CannotTell,
        Unusable = true,
        Faults = { new Fault { File = product, Code = "product-unreadable", Detail = problem } },
    };
}
