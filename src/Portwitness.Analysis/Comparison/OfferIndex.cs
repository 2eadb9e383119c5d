using System.Collections.Immutable;
using Portwitness.Labels;

namespace Portwitness.Analysis.Comparison;

/// <summary>Offers by port and arrangement, whatever the spelling of the ports and the order in which they were attached.</summary>
internal sealed class OfferIndex
{
    private readonly Dictionary<(string Port, string Arrangement), PortOffer> _offers = [];

    /// <summary>Of several offers of one port under one arrangement the first counts.</summary>
    public OfferIndex(IEnumerable<PortOffer> offers)
    {
        foreach (PortOffer offer in offers)
        {
            _offers.TryAdd((PortNames.Key(offer.Port), Arrangement(offer.InUse)), offer);
        }
    }

    /// <summary>The same for the same ports.</summary>
    public static string Arrangement(ImmutableArray<string> inUse) =>
        string.Join('+', inUse.Select(PortNames.Key).Order(StringComparer.Ordinal));

    /// <summary>The port alone in use.</summary>
    public PortOffer? Alone(string port) => Find(port, PortNames.Key(port));

    /// <summary>The port under an arrangement that <see cref="Arrangement"/> names.</summary>
    public PortOffer? Find(string port, string arrangement) => _offers.GetValueOrDefault((PortNames.Key(port), arrangement));
}
