using Portwitness.Contracts.V1;

namespace Portwitness.Reports;

/// <summary>What one file of a report is written from.</summary>
/// <param name="Products">One product, or those of a batch, in order.</param>
public sealed record ReportSet(IReadOnlyList<ReportedProduct> Products)
{
    /// <summary>The rule catalogue, for formats that describe the rules.</summary>
    public IReadOnlyList<RuleDescription> Rules { get; init; } = [];

    /// <summary>Colour and width, for text.</summary>
    public TextStyle Style { get; init; } = TextStyle.Plain;

    /// <summary>Whether JSON is laid out for people.</summary>
    public bool Indented { get; init; }

    /// <summary>The version that wrote the report, "0.1.0".</summary>
    public static string ToolVersion { get; } = typeof(ReportSet).Assembly.GetName().Version?.ToString(3) ?? "";
}
