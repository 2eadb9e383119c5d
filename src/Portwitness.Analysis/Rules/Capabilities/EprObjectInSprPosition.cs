using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An EPR object stands at one of the positions 1 to 7.</summary>
public sealed class EprObjectInSprPosition : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-object-in-spr-position",
        Severity = Severity.Violation,
        Title = "An EPR object stands at an SPR position",
        Clause = "R3.2v1.1 6.5.15.1",
        Why = "Above 20 V a device must have entered EPR mode over a cable made for it. Objects of EPR stand at position 8 and "
            + "behind; one that stands before makes the device reset the port.",
        Evidence = "The object's kind and voltage bits.",
        Editions = Editions.R31 | Editions.R32,
        Example = new ListExample("0x0881912C 0x0002D12C 0x0004B12C 0x000641F4 0xD230968C", "EPR AVS stands in an SPR list."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        foreach (OfferedObject offered in list.Objects)
        {
            // 28 V in an SPR list is above what that list may hold: another rule's matter.
            bool isEprObject = offered.Is(PowerObjectKind.EprAvs)
                || (list.IsEpr && offered.Is(PowerObjectKind.Fixed) && offered.HighestVoltage() > Electrical.SprMaximumFixed);
            if (offered.Position < MessageLimits.FirstEprPosition && isEprObject)
            {
                hits.Report(this, new Hit(Verdict.Fails, $"{offered} stands at position {offered.Position}.")
                {
                    Position = offered.Position,
                    Expected = "EPR objects at position 8 and behind",
                    Observed = offered.ToPhrase(),
                });
            }
        }
    }
}
