using System.Collections.Immutable;
using Portwitness.Analysis.Findings;
using Portwitness.Labels;
using Portwitness.Product.Catalogue;
using Portwitness.Product.Rules.Labels;

namespace Portwitness.Product;

/// <summary>What is wrong with a label on its own.</summary>
public static class PrintedCheck
{
    /// <summary>Findings, the gravest first.</summary>
    /// <param name="label">The label.</param>
    /// <param name="unlisted">How many more there are than can be listed.</param>
    public static ImmutableArray<Finding> Of(Label label, out long unlisted)
    {
        LabelFindings found = LabelFindings.Of(label, RuleCatalogue.Set);
        unlisted = found.Unlisted;
        return [.. found.Findings.OrderBy(static finding => finding.Severity).ThenBy(static finding => finding.LabelLine ?? 0)];
    }
}
