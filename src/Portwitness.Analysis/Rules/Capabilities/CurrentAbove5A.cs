using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An object offers more than the connector carries.</summary>
public sealed class CurrentAbove5A : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "current-above-5a",
        Severity = Severity.Violation,
        Title = "More than 5 A is offered",
        Clause = "R3.2v1.1 10.2",
        Why = "No USB-C connector or cable carries more than 5 A. Contacts that carry more overheat.",
        Evidence = "The object's kind and current bits.",
        Example = new ListExample("0x0001912C 0x0002D258", "9 V is offered with 6 A."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.MaximumCurrent() is { } current && current.Milliamperes > PowerRules.ConnectorMilliamperes)
            {
                hits.Report(this, new Hit(Verdict.Fails, $"{offered} is more than a connector carries.")
                {
                    Position = offered.Position,
                    Expected = "at most 5 A",
                    Observed = $"{current}",
                });
            }
        }
    }
}
