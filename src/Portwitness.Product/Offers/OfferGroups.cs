namespace Portwitness.Product.Offers;

/// <summary>
/// Offers by what was in use, in the order in which they were captured. An offer whose attach order is not stated goes with the only
/// order that is known of these ports.
/// </summary>
public sealed class OfferGroups
{
    private readonly List<string> _sets = [];
    private readonly Dictionary<string, List<OfferGroup>> _bySet = [];

    /// <summary>Groups offers.</summary>
    public OfferGroups(IReadOnlyList<PortOffer> offers)
    {
        foreach (PortOffer offer in offers.Where(static offer => offer.OrderKnown))
        {
            List<OfferGroup> alike = SetOf(offer.InUse);
            Add(alike, alike.FindIndex(group => group.IsInOrder(offer.InUse)), offer);
        }

        foreach (PortOffer offer in offers.Where(static offer => !offer.OrderKnown))
        {
            List<OfferGroup> alike = SetOf(offer.InUse);
            Add(alike, alike.Count == 1 ? 0 : alike.FindIndex(static group => !group.OrderKnown), offer);
        }
    }

    /// <summary>All of them, those of the same ports together.</summary>
    public IEnumerable<OfferGroup> All => Sets.SelectMany(static set => set);

    /// <summary>The attach orders of each set of ports.</summary>
    public IEnumerable<IReadOnlyList<OfferGroup>> Sets => _sets.Select(set => _bySet[set]);

    /// <summary>The attach orders of these ports, this order first.</summary>
    public IReadOnlyList<OfferGroup> Find(IReadOnlyCollection<string> ports) =>
        _bySet.TryGetValue(OfferGroup.SetOf(ports), out List<OfferGroup>? alike) ? [.. alike.OrderByDescending(group => group.IsInOrder(ports))] : [];

    /// <summary>The offer of a port alone in use; null when that was not captured.</summary>
    public PortOffer? Alone(string port) => Find([port]) is [{ } alone, ..] ? alone.OfferOf(port) : null;

    private List<OfferGroup> SetOf(IEnumerable<string> inUse)
    {
        string key = OfferGroup.SetOf(inUse);
        if (!_bySet.TryGetValue(key, out List<OfferGroup>? alike))
        {
            _sets.Add(key);
            _bySet.Add(key, alike = []);
        }

        return alike;
    }

    private static void Add(List<OfferGroup> groups, int at, PortOffer offer)
    {
        if (at < 0)
        {
            groups.Add(new OfferGroup(offer.InUse, offer.OrderKnown, [offer]));
        }
        else if (groups[at].OfferOf(offer.Port) is null)
        {
            groups[at] = groups[at] with { Offers = groups[at].Offers.Add(offer) };
        }
    }
}
