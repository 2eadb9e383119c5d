using System.Collections.Immutable;
using Portwitness.Product.Offers;

namespace Portwitness.Negotiation;

/// <summary>One port under one arrangement.</summary>
/// <param name="Offer">What it offered.</param>
/// <param name="Devices">What each device gets, in the order of <see cref="ShippedSinks.All"/>.</param>
public sealed record DeviceRow(SourceOffer Offer, ImmutableArray<SinkNegotiation> Devices);

/// <summary>What the shipped devices would get at each port, arrangement by arrangement.</summary>
/// <param name="Policy">How they choose.</param>
/// <param name="Rows">The offers in the order of the captures.</param>
/// <param name="Unlisted">How many more offers there are.</param>
public sealed record DeviceMatrix(SinkPolicy Policy, ImmutableArray<DeviceRow> Rows, long Unlisted)
{
    /// <summary>As many offers are listed.</summary>
    public const int MaxRows = 1_000;

    /// <summary>The matrix of what was captured.</summary>
    public static DeviceMatrix Of(IReadOnlyCollection<PortOffer> offers) => new(
        SinkPolicy.MostPower,
        [
            .. offers.Take(MaxRows).Select(SourceOffer.Of).Select(static offer => new DeviceRow(
                offer, [.. ShippedSinks.All.Select(sink => Negotiator.Of(offer, sink, SinkPolicy.MostPower))])),
        ],
        Math.Max(0, offers.Count - MaxRows));
}
