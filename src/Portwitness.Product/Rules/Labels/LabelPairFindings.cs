using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;

namespace Portwitness.Product.Rules.Labels;

/// <summary>Takes what is found of two labels together.</summary>
internal sealed class LabelPairFindings
{
    private readonly BoundedFindings _list = new();

    /// <summary>What was found.</summary>
    public IReadOnlyList<Finding> Findings => _list.Findings;

    /// <summary>Findings that are not listed.</summary>
    public long Unlisted => _list.Unlisted;

    /// <summary>Takes one case.</summary>
    public void Report(Rule rule, in Hit hit, string port, string label, string otherLabel, int otherLine) =>
        _list.Add(Finding.From(rule.Description, hit) with { Port = port, Label = label, OtherLabel = otherLabel, OtherLabelLine = otherLine });
}
