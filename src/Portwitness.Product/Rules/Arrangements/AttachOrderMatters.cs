using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>What ports offer together depends on which was attached first.</summary>
public sealed class AttachOrderMatters : ArrangementRule
{
    private const int MaxNamed = 6;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "attach-order-matters",
        Severity = Severity.Note,
        Title = "What ports offer together depends on the attach order",
        Clause = "common practice, no source: combinations are tested in every attach order",
        Why = "Whoever plugs the laptop in second waits longer. It is no fault in itself, but a label seldom says so, and a comparison in "
            + "one order only does not see it.",
        Evidence = "Captures of the same ports in use together in two attach orders, each stated.",
        Example = new ScriptExample(
            """
            port: C1
            in_use: [C1]
            source:
              alone: [5V 3A, 9V 3A, 15V 3A]
              last: [5V 3A, 9V 2.22A]
            steps:
              - attach
              - advertise alone
              - contract 3 at 3A
              - attach C2
              - advertise alone
              - pause 3s
              - detach
              - attach
              - advertise last
              - contract 2 at 2.22A
            """,
            "Beside C2, C1 is offered 45 W when it was attached first, and 20 W when it was attached last."),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (IReadOnlyList<OfferGroup> orders in product.Groups.Sets)
        {
            OfferGroup[] known = [.. orders.Where(order => order.OrderKnown && order.InUse.Length > 1)];
            string[] ports = [.. known.SelectMany(order => order.Offers.Select(offer => offer.Port)).Distinct()];
            string[] differing = [.. ports.Where(port => Differs([.. known.Select(order => order.OfferOf(port)).OfType<PortOffer>()]))];
            if (differing.Length > 0)
            {
                Phrase seen = Phrase.Join("; ", known.Take(MaxNamed).Select(order =>
                    Phrase.Of($"{order.Text}: {Phrase.Join(", ", order.Offers.Where(offer => differing.Contains(offer.Port)).Select(Text))}")));
                PortOffer last = known.Select(order => order.OfferOf(differing[0])).OfType<PortOffer>().Last();
                hits.Report(
                    this,
                    new Hit(default, $"What {Phrase.JoinNames(" and ", differing)} offer{(differing.Length == 1 ? "s" : "")} goes by the attach order. {seen}.")
                    {
                        IsNote = true,
                    },
                    ProductPlace.Of(last) with { Port = differing.Length == 1 ? differing[0] : "" });
            }
        }
    }

    private static bool Differs(PortOffer[] offers) => offers.Skip(1).Any(offer =>
        Math.Abs(offer.LargestPowerMilliwatts - offers[0].LargestPowerMilliwatts) > SharingJudgement.RoundingMilliwatts
        || OfferChange.Between(offers[0], offer).Any(change => change.Kind is OfferChangeKind.Lost or OfferChangeKind.Added));

    private static Phrase Text(PortOffer offer) => $"{offer.Port} up to {OfferHistory.PowerText(offer)} ({offer.Place})";
}
