using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;

namespace Portwitness.Product.Rules;

/// <summary>
/// A list of findings of which each rule, severity and verdict has a bounded number and the rest is counted, so that no flood hides what
/// another rule finds, or how grave it is.
/// </summary>
internal sealed class BoundedFindings
{
    /// <summary>Findings of one rule, severity and verdict that are listed; a product has a few.</summary>
    public const int MaxPerRule = 50;

    private readonly List<Finding> _findings = [];
    private readonly Dictionary<(string Rule, Severity Severity, Verdict? Verdict), int> _counts = [];

    /// <summary>In the order in which they were added.</summary>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>Findings that are not listed, all of a kind that is.</summary>
    public long Unlisted { get; private set; }

    /// <summary>Lists a finding, or counts it.</summary>
    public void Add(Finding finding)
    {
        (string, Severity, Verdict?) kind = (finding.Rule, finding.Severity, finding.Verdict);
        int count = _counts.GetValueOrDefault(kind);
        if (count == MaxPerRule)
        {
            Unlisted++;
            return;
        }

        _counts[kind] = count + 1;
        _findings.Add(finding);
    }
}
