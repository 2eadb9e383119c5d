using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A source of R3.2 above 27 W offers no SPR AVS.</summary>
public sealed class SprAvsMissing : CapabilityRule
{
    private const int NormativeAbove = 27_000;
    private const int OptionalUpTo = 15_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "spr-avs-missing",
        Severity = Severity.Violation,
        Title = "SPR AVS is not offered",
        Clause = "R3.2v1.1 Tables 10.2 and 10.3",
        Why = "Since R3.2 a source above 27 W lets a device set its voltage between 9 V and 15 V or 20 V. A device that "
            + "relies on it charges slower and warmer without.",
        Evidence = "That the source follows R3.2, and the whole list. Where the list is complete at a power up to 27 W, also whether the "
            + "port can share its power: a managed port may list less before its first contract.",
        Editions = Editions.R32,
        Example = new ListExample("0x0801912C 0x0002D12C 0x0004B12C", "A 45 W source of R3.2 lists no SPR AVS.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        // A source that does not say which edition it follows has no such duty: before R3.2 there was no SPR AVS.
        if (!list.IsSource || list.Evidence.Editions != Editions.R32 || MayOffer(list) || Settle(list) is not { } settled)
        {
            return;
        }

        Verdict verdict = list.MayHideSprAvs ? Verdict.CannotTell : settled;
        hits.Report(this, new Hit(verdict, $"A source of {list.Power} offers SPR AVS since R3.2; this list does not.")
        {
            Expected = list.Power.PdpMilliwatts > PowerRules.NormativeAbove(20000) ? "SPR AVS 9 V to 20 V" : "SPR AVS 9 V to 15 V",
            Observed = "not offered",
            NextStep = verdict == Verdict.Fails ? null
                : list.MayHideSprAvs ? "Capture the messages themselves: some kernels leave SPR AVS out of what they show."
                : PdpRule.ManagedNextStep,
        });
    }

    // What is complete at a present PDP above 27 W owes SPR AVS at that PDP, be it the whole of a small source or a part of a
    // large one: both tables say so. Of less, or of a list that lacks more, the port's maximum decides.
    private static Verdict? Settle(in ListCase list)
    {
        if (list.Power.CompleteMilliwatts > NormativeAbove)
        {
            return Verdict.Fails;
        }

        bool optional = list.Power.IsReduced && PowerFitter.LargestFixedPower(list.Objects) <= OptionalUpTo;
        return list.Power.PdpMilliwatts <= NormativeAbove || optional ? null
            : list.Power.Breaches is null ? list.SettleAddition() : Verdict.CannotTell;
    }

    private static bool MayOffer(in ListCase list)
    {
        foreach (OfferedObject offered in list.Objects)
        {
            if (!offered.KindIsKnown || offered.Kind == PowerObjectKind.SprAvs)
            {
                return true;
            }
        }

        return false;
    }
}
