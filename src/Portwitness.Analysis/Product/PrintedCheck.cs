using System.Collections.Immutable;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Labels;
using Portwitness.Labels;

namespace Portwitness.Analysis.Product;

/// <summary>What is wrong with a label on its own.</summary>
public static class PrintedCheck
{
    /// <summary>Findings, the gravest first.</summary>
    public static ImmutableArray<Finding> Of(Label label) =>
        [.. LabelFindings.Of(label, RuleSelection.All).OrderBy(static finding => finding.Severity).ThenBy(static finding => finding.LabelLine ?? 0)];
}
