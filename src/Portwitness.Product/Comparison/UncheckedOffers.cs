using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Comparison;

/// <summary>Offers that were recognised on a photo and compared by nobody: what rests on them neither fails nor holds.</summary>
/// <param name="offers">All offers.</param>
internal sealed class UncheckedOffers(IReadOnlyList<PortOffer> offers)
{
    /// <summary>The captures that were recognised on photos and compared by nobody.</summary>
    public static string[] FilesOf(IEnumerable<PortOffer> offers) =>
        [.. offers.Where(static offer => offer.IsUnchecked).Select(static offer => offer.File).Distinct()];

    private readonly PortOffer[] _unchecked = [.. offers.Where(static offer => offer.IsUnchecked)];

    /// <summary>The claim, left open when it may rest on such offers.</summary>
    public Claim Settle(Claim claim)
    {
        bool mayRest = claim.Verdict != Verdict.CannotTell && claim.Kind is not (ClaimKind.Input or ClaimKind.Battery)
            && (claim.Offer is { } offer ? offer.IsUnchecked : _unchecked.Any(one => claim.Port.Length == 0 || PortNames.Same(one.Port, claim.Port)));
        return mayRest ? claim.CannotTell(claim.Outcome, claim.Evidence, CaptureSteps.ComparePhoto) : claim;
    }
}
