using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;

namespace Portwitness.Product.Offers;

/// <summary>What the ports in use at once were seen to offer, in one attach order: one offer for each port that was captured.</summary>
/// <param name="InUse">Ports in use, in attach order where that is known.</param>
/// <param name="OrderKnown">Whether it is.</param>
/// <param name="Offers">The first offer of each port.</param>
public sealed record OfferGroup(ImmutableArray<string> InUse, bool OrderKnown, ImmutableArray<PortOffer> Offers)
{
    /// <summary>Whether every port in use was captured.</summary>
    public bool IsComplete => Offers.Length == InUse.Length;

    /// <summary>What all of them offer together, in mW.</summary>
    public int SumMilliwatts => Offers.Sum(offer => offer.LargestPowerMilliwatts);

    /// <summary>"C1, then C2", or "C1 and C2 in an order that is not stated".</summary>
    public Phrase Text => InUse.Length <= 1 ? Phrase.Of($"{string.Concat(InUse)} alone")
        : OrderKnown ? Phrase.JoinNames(", then ", InUse)
        : $"{Phrase.JoinNames(" and ", InUse)} in an order that is not stated";

    /// <summary>Whether the same ports were attached in this order.</summary>
    public bool IsInOrder(IEnumerable<string> ports) => OrderKnown && OrderOf(ports) == OrderOf(InUse);

    /// <summary>The offer of a port; null when it was not captured.</summary>
    public PortOffer? OfferOf(string port) => Offers.FirstOrDefault(offer => PortNames.Same(offer.Port, port));

    /// <summary>The same for the same ports in the same order.</summary>
    internal static string OrderOf(IEnumerable<string> ports) => string.Join('\n', ports.Select(PortNames.Key));

    /// <summary>The same for the same ports, in whatever order.</summary>
    internal static string SetOf(IEnumerable<string> ports) =>
        string.Join('\n', ports.Select(PortNames.Key).Order(StringComparer.Ordinal));
}
