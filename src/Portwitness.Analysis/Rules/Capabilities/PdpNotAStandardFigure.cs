using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The PD power that a list shows is none that can be printed.</summary>
public sealed class PdpNotAStandardFigure : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "pdp-not-a-standard-figure",
        Severity = Severity.Violation,
        Title = "The PD power is no figure that a rating can have",
        Clause = "R3.2v1.1 10.1",
        Why = "A rating is a whole number of watts, below 10 W a multiple of half a watt. Objects that follow another figure "
            + "agree with no rating that could be printed.",
        Evidence = "The edition, and that nothing reduces the port's power: a reduced power can be any.",
        Editions = Editions.R32,
        Example = new ListExample("0x0801912C 0x0002D0CD", "9 V 2.05 A agrees with 18.5 W, not with 18 or 19 W.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (list.IsEpr || list.Power.Basis != PdpBasis.Derived || !list.Power.HoldsInFull || list.Power.FitsARating
            || list.Evidence.Sharing == PowerSharing.InUse || list.Evidence.Settle(Editions.R32) is not { } settled)
        {
            return;
        }

        Verdict verdict = list.Evidence.Sharing == PowerSharing.None ? settled : Verdict.CannotTell;
        int power = list.Power.PdpMilliwatts;
        int above = PowerRules.NextRating(power);
        hits.Report(this, new Hit(verdict, $"The list agrees with about {PowerRules.Watts(power)}, and with no rating beside it.")
        {
            Expected = $"{PowerRules.Watts(above - PowerRules.RatingStep(power))} or {PowerRules.Watts(above)}",
            Observed = $"{PowerRules.Watts(power)}",
            NextStep = verdict == Verdict.Fails ? null
                : settled == Verdict.CannotTell ? list.EditionStep
                : PdpRule.ManagedNextStep,
        });
    }
}
