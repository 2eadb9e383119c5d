using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>EPR AVS states more power than there can be.</summary>
public sealed class PowerAbove240W : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "power-above-240w",
        Severity = Severity.Violation,
        Title = "EPR AVS states more than 240 W",
        Clause = "R3.2v1.1 10.1, 10.2.3.3",
        Why = "No PD power is above 240 W: 48 V and 5 A are the most that connectors and cables carry. A device that believes the figure "
            + "asks for current that contacts are not made for.",
        Evidence = "The object's kind and power bits, and the edition: R3.1 was not read.",
        Editions = Editions.WithEpr,
        Example = new MessageExample(
            EprExamples.List(
                0x0881912C, 0x0002D12C, 0x0004B12C, 0x000641F4, 0xE004B1F4, 0, 0, 0x0008C1F4, 0x000B41F4, 0x000F01F4, 0xD3C096FA),
            "EPR AVS states 250 W."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || list.Evidence.SettleAmong(Editions.WithEpr, Editions.R32) is not { } verdict)
        {
            return;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Is(PowerObjectKind.EprAvs) && offered.Knows(EprAvsSourceSupply.PdpField)
                && offered.AsSource().AsEprAvs().Pdp is var power && power > Electrical.EprMaximumPdp)
            {
                hits.Report(this, new Hit(
                    verdict, $"{offered}: there is no source above {Electrical.EprMaximumPdp}.")
                {
                    Position = offered.Position,
                    Expected = $"at most {PowerRules.Watts(PowerRules.EprMaximumMilliwatts)}",
                    Observed = $"{power}",
                    NextStep = verdict == Verdict.CannotTell ? list.EditionStep : null,
                });
            }
        }
    }
}
