using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The voltage of a variable supply varies too much.</summary>
public sealed class VariableRangeTooWide : CapabilityRule
{
    private const int LeastPercent = 80;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "variable-range-too-wide",
        Severity = Severity.Violation,
        Title = "A variable supply varies too much",
        Clause = "R3.2v1.1 6.4.1.2.2",
        Why = "The lower limit is at least 80 % of the upper one. A device that is made for that range browns out when the "
            + "voltage sinks further.",
        Evidence = "The edition: the limit was read in R3.2v1.1.",
        Editions = Editions.R32,
        Example = new ListExample("0x0001912C 0x8B415D2C", "A variable supply reaches from 4.35 V to 9 V.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || list.Evidence.Settle(Editions.R32) is not { } verdict)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Is(PowerObjectKind.Variable) && offered.LowestVoltage() is { } low && offered.HighestVoltage() is { } high
                && low.Millivolts * 100 < high.Millivolts * LeastPercent)
            {
                hits.Report(this, new Hit(verdict, $"{offered}: {low} is less than {LeastPercent} % of {high}.")
                {
                    Position = offered.Position,
                    Expected = $"from {Voltage.FromMillivolts(high.Millivolts * LeastPercent / 100)}",
                    Observed = $"{low} to {high}",
                    NextStep = verdict == Verdict.CannotTell ? list.EditionStep : null,
                });
            }
        }
    }
}
