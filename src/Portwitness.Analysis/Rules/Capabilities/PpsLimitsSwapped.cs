using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The minimum of a PPS range is above its maximum.</summary>
public sealed class PpsLimitsSwapped : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "pps-limits-swapped",
        Severity = Severity.Violation,
        Title = "The minimum of a PPS range is above its maximum",
        Clause = "R3.2v1.1 Tables 6.13 and 6.20",
        EarlierClauses = [(PowerDelivery.Limits.Editions.R30, "R3.0v2.0 Table 6-13")],
        Why = "No voltage lies in such a range. A device that looks for PPS finds nothing that it could ask for, or asks for "
            + "a voltage that the source never meant.",
        Evidence = "Both voltage fields of the object.",
        Example = new ListExample("0x0001912C 0x0002D12C 0xC0646E3C", "The range is said to reach from 11 V to 5 V."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Is(PowerObjectKind.Pps) && offered.LowestVoltage() > offered.HighestVoltage())
            {
                hits.Report(this, new Hit(Verdict.Fails, $"{offered.VoltagePhrase()} is no range.")
                {
                    Clause = list.IsSource ? Description.ClauseFor(list.Evidence.Editions) : null,
                    Position = offered.Position,
                    Expected = "a minimum below the maximum",
                    Observed = offered.VoltagePhrase(),
                });
            }
        }
    }
}
