using Portwitness.Contracts.V1;

namespace Portwitness.Reports;

/// <summary>How a product came out, as test reports know it.</summary>
public enum ProductOutcome
{
    /// <summary>It holds, and no finding reaches --fail-on.</summary>
    Passes,

    /// <summary>It fails, or a finding reaches --fail-on.</summary>
    Fails,

    /// <summary>The evidence does not settle it.</summary>
    CannotTell,

    /// <summary>Nothing could be judged.</summary>
    Unusable,
}

/// <summary>One product of a report, and what its report message does not say.</summary>
/// <param name="Source">The product file or the capture, as the user named it.</param>
/// <param name="IsProductFile">Whether it is a product file, so that the files of its findings lie beside it.</param>
/// <param name="Outcome">How it came out.</param>
/// <param name="Read">Gives the report; it may be read from a file each time, and is not kept.</param>
public sealed record ReportedProduct(string Source, bool IsProductFile, ProductOutcome Outcome, Func<ProductReport> Read)
{
    /// <summary>Photos of labels as JPEG, straight as they were read, by the text that was recognised on them.</summary>
    public IReadOnlyDictionary<string, byte[]> Pictures { get; init; } = new Dictionary<string, byte[]>();

    /// <summary>How a product came out.</summary>
    /// <param name="verdict">Its verdict.</param>
    /// <param name="unusable">Whether nothing could be judged.</param>
    /// <param name="reachesFailOn">Whether a finding is as grave as the user counts as failing.</param>
    public static ProductOutcome OutcomeOf(Verdict verdict, bool unusable, bool reachesFailOn) =>
        unusable ? ProductOutcome.Unusable
        : reachesFailOn || verdict == Verdict.Fails ? ProductOutcome.Fails
        : verdict == Verdict.Holds ? ProductOutcome.Passes
        : ProductOutcome.CannotTell;
}
