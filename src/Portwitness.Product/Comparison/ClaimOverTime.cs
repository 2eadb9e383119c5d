using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Comparison;

/// <summary>
/// Holds a claim against all that a port offered under an arrangement. What was offered once was offered: a source may fall back
/// to less when it gets hot, or when somebody else needs the power (R3.2v1.1, 6.4.1).
/// </summary>
internal static class ClaimOverTime
{
    private const int MaxStepsListed = 4;

    /// <summary>Judges a claim about a port alone. More than is printed is more, even for a while.</summary>
    public static Claim Judge(Claim claim, PortOffer offer, Func<Claim, PortOffer, Claim> judge) => Judge(claim, offer, judge, everMore: true);

    /// <summary>
    /// Judges a claim about a port beside others. What it offered before it took its neighbours into account is never held
    /// against the label.
    /// </summary>
    public static Claim JudgeShared(Claim claim, PortOffer offer, Func<Claim, PortOffer, Claim> judge) => Judge(claim, offer, judge, everMore: false);

    private static Claim Judge(Claim claim, PortOffer offer, Func<Claim, PortOffer, Claim> judge, bool everMore)
    {
        Claim last = judge(claim, offer);
        if (offer.Earlier.IsEmpty || (!everMore && last.Verdict == Verdict.Holds))
        {
            return last;
        }

        Step[] steps = [.. offer.Earlier.Select(earlier => new Step(judge(claim, earlier), earlier)), new Step(last, offer)];
        int told = Array.FindLastIndex(steps, step => everMore && step.Claim is { Outcome: ClaimOutcome.More, Verdict: Verdict.Fails });
        if (told < 0)
        {
            int best = steps.Min(Rank);
            int most = steps.Where(step => Rank(step) == best).Max(static step => step.Offer.LargestPowerMilliwatts);
            told = Array.FindLastIndex(steps, step => Rank(step) == best && step.Offer.LargestPowerMilliwatts == most);
        }

        return steps[told].Claim with { Evidence = steps[told].Claim.Evidence + Then(steps.AsSpan(told)) };
    }

    private static int Rank(Step step) => step.Claim.Verdict switch
    {
        Verdict.Holds => 0,
        Verdict.CannotTell => 1,
        _ => 2,
    };

    // " for 10 min 2 s, then 45 W (message 9)": each time that it changed what the claim is about.
    private static Phrase Then(ReadOnlySpan<Step> steps)
    {
        List<(Step Step, long ForUs)> changes = [];
        foreach (Step step in steps)
        {
            if (changes.Count > 0 && changes[^1].Step.Claim.Observed == step.Claim.Observed)
            {
                changes[^1] = (changes[^1].Step, changes[^1].ForUs + step.Offer.ForUs);
            }
            else
            {
                changes.Add((step, step.Offer.ForUs));
            }
        }

        if (changes.Count == 1)
        {
            return Phrase.Empty;
        }

        IEnumerable<Phrase> shown = changes.Count <= MaxStepsListed
            ? changes.Skip(1).Select((change, at) => at + 2 < changes.Count ? Phrase.Of($"{Text(change.Step)} for {OfferHistory.Duration(change.ForUs)}") : Text(change.Step))
            : [$"{changes.Count - 2} other offers", Text(changes[^1].Step)];
        return $" for {OfferHistory.Duration(changes[0].ForUs)}, then {Phrase.Join(", then ", shown)}";
    }

    private static Phrase Text(Step step) =>
        $"{step.Claim.Observed} (message {step.Offer.List.MessageIndex})";

    private sealed record Step(Claim Claim, PortOffer Offer);
}
