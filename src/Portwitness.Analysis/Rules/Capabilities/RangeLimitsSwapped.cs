using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The minimum of a battery, variable or EPR AVS range is above its maximum.</summary>
public sealed class RangeLimitsSwapped : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "range-limits-swapped",
        Severity = Severity.Violation,
        Title = "The minimum of a range is above its maximum",
        Clause = "R3.2v1.1 Tables 6.11, 6.12, 6.15, 6.18, 6.19 and 6.22",
        Why = "No voltage lies in such a range, so that a device cannot know what it would get.",
        Evidence = "Both voltage fields of the object.",
        Example = new ListExample("0x0001912C 0x4421A4F0", "A battery supply is said to reach from 5.25 V to 3.3 V."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        foreach (OfferedObject offered in list.Objects)
        {
            bool hasLimits = offered.Kind is PowerObjectKind.Battery or PowerObjectKind.Variable or PowerObjectKind.EprAvs;
            if (hasLimits && offered.LowestVoltage() > offered.HighestVoltage())
            {
                hits.Report(this, new Hit(Verdict.Fails, $"{offered.VoltagePhrase()} is no range.")
                {
                    Position = offered.Position,
                    Expected = "a minimum below the maximum",
                    Observed = offered.VoltagePhrase(),
                });
            }
        }
    }
}
