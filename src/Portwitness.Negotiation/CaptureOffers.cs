using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Product.Offers;

namespace Portwitness.Negotiation;

/// <summary>What the port of a capture offers, arrangement by arrangement.</summary>
public static class CaptureOffers
{
    /// <summary>One offer for each arrangement in which a list was seen, of its last lists.</summary>
    /// <remarks>Whether the port shares its power is not known of a single capture, so that it may.</remarks>
    public static ImmutableArray<SourceOffer> Of(CaptureAnalysis capture) =>
        [.. PortOffers.Of(capture, static port => port, mayBeManaged: true).Select(SourceOffer.Of)];
}
