using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Controllers;
using Portwitness.Product.Offers;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A port offers more than its controller's data sheet states.</summary>
public sealed class OfferBeyondController : ControllerRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "offer-beyond-controller",
        Severity = Severity.Mismatch,
        Title = "A port offers more than its controller's data sheet states",
        Clause = "common practice, no source; the controller's data sheet as stated",
        Why = "What a controller offers beyond its own rating it cannot give, or it is another part than was thought.",
        Evidence = "The controller under \"parts:\" with its power or protocols and the ports that it drives, and captures of these ports.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "65 W is offered; the controller does 45 W.",
            Members: "parts:\n  - {part: U1, kind: controller, watts: 45, ports: [C]}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(ControllerUse use, IProductHitSink hits)
    {
        if (use.Controller.Power is { } most && use.Offers.MaxBy(static offer => offer.MostPowerMilliwatts) is { } strongest
            && strongest.MostPowerMilliwatts > most.Milliwatts + PrintedPowers.Tolerance(most.Milliwatts) + strongest.PowerSlackMilliwatts)
        {
            Phrase offered = $"{PrintedPowers.Watts(strongest.MostPowerMilliwatts)}";
            hits.Report(
                this,
                Beyond(use, true, $"{strongest.Port} offers {offered} ({strongest.Place}); {use.Controller.Name}, which drives it, does {most}.", Phrase.Empty) with
                {
                    Expected = $"at most {most}", Observed = offered,
                },
                ProductPlace.Of(strongest));
        }

        if (!use.Protocols.IsEmpty)
        {
            CheckProtocols(use, hits);
        }
    }

    private void CheckProtocols(ControllerUse use, IProductHitSink hits)
    {
        var others = use.Offers.SelectMany(static offer => offer.Earlier.Append(offer))
            .SelectMany(static offer => offer.List.Objects.Where(static offered => offered is { KindIsKnown: true, IsZero: false })
                .Select(offered => (Offer: offer, Offered: offered, Protocol: ProtocolWord.Of(offered.Kind))))
            .Where(static one => one.Protocol is not null).DistinctBy(static one => (one.Offer.Port, one.Protocol!.Meaning));
        foreach ((PortOffer offer, OfferedObject offered, ProtocolWord? protocol) in others)
        {
            bool? has = ProtocolWord.Have(use.Protocols, protocol!);
            if (has == true)
            {
                continue;
            }

            hits.Report(
                this,
                Beyond(
                    use, has == false,
                    $"{offer.Port} offers {protocol!.Text} with object {offered.Position}, {offered} ({offer.Place}); {use.Controller.Name}, which drives it, does "
                    + $"{Phrase.JoinNames(", ", use.Controller.Protocols)}.",
                    $"Look in the data sheet of {use.Controller.Name} for {protocol.Text}, and name it under \"protocols:\".") with
                {
                    Position = offered.Position, Expected = Phrase.JoinNames(", ", use.Controller.Protocols), Observed = $"{protocol.Text}",
                },
                ProductPlace.Of(offer));
        }
    }
}
