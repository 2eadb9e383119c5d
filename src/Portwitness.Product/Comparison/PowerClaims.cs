using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Offers;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Comparison;

/// <summary>Holds a printed power against the power of one list, or of several ports together.</summary>
internal static class PowerClaims
{
    private const int PlainCableMilliwatts = 60_000;

    /// <summary>Judges a port's printed power.</summary>
    /// <param name="claim">The claim.</param>
    /// <param name="printed">The power.</param>
    /// <param name="offer">The list.</param>
    /// <param name="output">What else is printed of the port; null when nothing is.</param>
    public static Claim Judge(Claim claim, Power printed, PortOffer offer, PrintedOutput? output = null)
    {
        int offered = offer.LargestPowerMilliwatts;
        claim = claim with
        {
            Printed = $"{printed}", Offer = offer, Observed = $"{PowerRules.Watts(offered)}",
            Evidence = $"the largest offer is {PowerRules.Watts(offered)} ({offer.Place})",
        };
        int missing = printed.Milliwatts - offered;
        long tolerance = Tolerance(printed) + offer.PowerSlackMilliwatts;
        if (-missing > tolerance)
        {
            return claim.Fails(ClaimOutcome.More, claim.Evidence);
        }

        if (missing <= tolerance)
        {
            return Declared(claim, printed, offer);
        }

        // Labels also print V × I of a PPS corner (common practice, no source); it is real unless PPS is power limited.
        if (Corner(offer) is { } pps && printed.Milliwatts - pps.Milliwatts <= Tolerance(printed))
        {
            Phrase corner = $"{claim.Evidence}; the corner of object {pps.Offered.Position} ({pps.Offered}) is "
                + $"{PowerRules.Watts(pps.Milliwatts)}";
            return pps.Limited == false
                ? claim with { Evidence = corner }
                : claim.CannotTell(ClaimOutcome.Less, $"{corner}, which may be power limited", "Load the port at that corner and measure.");
        }

        if (output is not null && OtherProtocolRatings.Explanation(output, printed, Without12V(offer)) is { } explanation)
        {
            return claim.CannotTell(ClaimOutcome.Less, $"{claim.Evidence}; {explanation}", NextSteps.OtherProtocol);
        }

        if (printed.Milliwatts > PowerRules.SprMaximumMilliwatts && offer.MayHideEpr)
        {
            return claim.CannotTell(ClaimOutcome.Less, $"{claim.Evidence}; EPR was not captured", NextSteps.EprCable);
        }

        if (printed.Milliwatts > PlainCableMilliwatts && offered <= PlainCableMilliwatts && offer.CableMayHideCurrent)
        {
            return claim.CannotTell(
                ClaimOutcome.Less, $"{claim.Evidence}; over a 3 A cable a source offers 60 W at most", offer.CableStep);
        }

        if (offer.HidesObjects)
        {
            return claim.CannotTell(ClaimOutcome.Less, $"{claim.Evidence}; not all of the list was shown", offer.WholeListStep);
        }

        return offer.MayListMore
            ? claim.CannotTell(ClaimOutcome.Less, claim.Evidence, offer.ContractStep)
            : claim.Fails(ClaimOutcome.Less, claim.Evidence);
    }

    // A port declares whole watts (R3.2v1.1, 6.4.11), rounded either way.
    private static Claim Declared(Claim claim, Power printed, PortOffer offer)
    {
        bool differs = offer.Declared is { } declared
            && Math.Abs(declared.Milliwatts - printed.Milliwatts) >= Math.Max(1000, Tolerance(printed));
        return differs
            ? claim.Fails(ClaimOutcome.DeclaredDiffers, $"{claim.Evidence}; the port declares {offer.Declared}") with
            {
                Observed = $"{offer.Declared}"!,
            }
            : claim;
    }

    /// <summary>Judges what several ports are printed to give together.</summary>
    public static Claim JudgeSum(Claim claim, Power printed, IReadOnlyList<PortOffer> offers, Label label)
    {
        int sum = offers is [{ InUse.Length: <= 1 } alone] ? alone.MostPowerMilliwatts : offers.Sum(offer => offer.LargestPowerMilliwatts);
        Phrase parts = Phrase.Join(" + ", offers.Select(static offer => Phrase.Of($"{offer.Port} {OfferHistory.PowerText(offer)}")));
        Phrase seen = $"{(offers.Count > 1 ? Phrase.Of($"offered together: {parts} = {PowerRules.Watts(sum)}") : $"offered: {parts}")} ({Phrase.JoinNames("; ", offers.Select(static offer => offer.Place))})";
        claim = claim with { Printed = $"{printed}", Observed = $"{PowerRules.Watts(sum)}", Evidence = seen };
        long tolerance = Tolerance(printed) + offers.Sum(static offer => offer.PowerSlackMilliwatts);
        if (sum > printed.Milliwatts + tolerance)
        {
            return claim.Fails(ClaimOutcome.More, seen);
        }

        if (sum >= printed.Milliwatts - tolerance)
        {
            return claim;
        }

        if (offers.Sum(static offer => offer.MostPowerMilliwatts) >= printed.Milliwatts - tolerance)
        {
            return claim.CannotTell(ClaimOutcome.Less, $"{seen}; each offered more before, and not surely at the same time", NextSteps.OneClock);
        }

        if (offers.FirstOrDefault(static offer => offer.HidesObjects) is { } hiding)
        {
            return claim.CannotTell(ClaimOutcome.Less, $"{seen}; not all of the lists was shown", hiding.WholeListStep);
        }

        foreach (PortOffer offer in offers)
        {
            if (label.FindOutput(offer.Port) is { Maximum: { } maximum } output
                && OtherProtocolRatings.Explanation(output, maximum.Power, Without12V(offer)) is { } explanation)
            {
                return claim.CannotTell(ClaimOutcome.Less, $"{seen}; of {offer.Port} {explanation}", NextSteps.OtherProtocol);
            }
        }

        return offers.FirstOrDefault(static offer => offer.MayListMore) is { } managed
            ? claim.CannotTell(ClaimOutcome.Less, seen, managed.ContractStep)
            : offers.FirstOrDefault(static offer => offer.CableMayHideCurrent && offer.LargestPowerMilliwatts == PlainCableMilliwatts) is { } cut
                ? claim.CannotTell(ClaimOutcome.Less, seen, cut.CableStep)
                : claim.Fails(ClaimOutcome.Less, seen);
    }

    // R3.2v1.1, 10.2.3.1: 12 V is no more.
    private static bool Without12V(PortOffer offer) => (offer.Editions & Editions.R32) != 0
        && !offer.List.Objects.Any(static offered => offered.Is(PowerObjectKind.Fixed) && offered.HighestVoltage()?.Millivolts == 12000);

    internal static long Tolerance(Power printed) => PowerRules.Rounding(printed.Milliwatts);

    private static (OfferedObject Offered, int Milliwatts, bool? Limited)? Corner(PortOffer offer)
    {
        (OfferedObject, int Milliwatts, bool?)? best = null;
        foreach (OfferedObject offered in offer.List.Objects)
        {
            if (offered.KindIsKnown && offered.Kind == PowerObjectKind.Pps
                && offered.HighestVoltage() is { } high && offered.MaximumCurrent() is { } current
                && (high * current).Milliwatts > (best?.Milliwatts ?? 0))
            {
                bool? limited = offered.Knows(PpsSourceSupply.PowerLimitedField) ? offered.AsSource().AsPps().PowerLimited : null;
                best = (offered, (high * current).Milliwatts, limited);
            }
        }

        return best;
    }
}
