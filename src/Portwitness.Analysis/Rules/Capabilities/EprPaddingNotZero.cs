using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A position of an EPR list that holds no SPR object is not all zero.</summary>
public sealed class EprPaddingNotZero : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-padding-not-zero",
        Severity = Severity.Violation,
        Title = "An unused SPR position of an EPR list is not zero",
        Clause = "R3.2v1.1 6.5.15.1",
        Why = "Unused positions up to 7 are filled with zeroes, so that EPR objects always begin at position 8. A device that "
            + "finds anything else there takes it for an offer of 0 V, or the list for broken.",
        Evidence = "The object's kind and voltage bits in an EPR list.",
        Editions = Editions.R31 | Editions.R32,
        Example = new MessageExample(
            EprExamples.List(0x0881912C, 0x0002D12C, 0x0004B12C, 0x000641F4, 0xE004B1F4, 0x12C, 0, 0x0008C1F4, 0xD230968C),
            "Position 6 names a current but no voltage."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsEpr)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Position < MessageLimits.FirstEprPosition && offered.Is(PowerObjectKind.Fixed)
                && offered.HighestVoltage() is { Millivolts: 0 })
            {
                hits.Report(this, new Hit(Verdict.Fails, $"Position {offered.Position} offers 0 V, but is not zero.")
                {
                    Position = offered.Position,
                    Expected = "0x00000000",
                    Observed = $"0x{offered.Raw:X8}",
                });
            }
        }
    }
}
