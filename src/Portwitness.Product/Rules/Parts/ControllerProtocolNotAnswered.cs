using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Controllers;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Parts;

/// <summary>No port answers to a protocol of its controller.</summary>
public sealed class ControllerProtocolNotAnswered : ControllerRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "controller-protocol-not-answered",
        Severity = Severity.Note,
        Title = "No port answers to a protocol of its controller",
        Clause = "common practice, no source; the controller's data sheet as stated",
        Why = "A controller that can do more than its ports show is configured not to, which may be meant; or another part was fitted, or a firmware "
            + "forgot it.",
        Evidence = "The controller under \"parts:\" with its protocols, whole lists of every port that it drives, and \"signalling:\" with no-... for what is no "
            + "protocol of USB PD. Where a port was not asked nothing is said.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "The controller does PPS; the only port offers none.",
            Members: "label: \"USB-C: 5V⎓3A 9V⎓3A\"\nparts:\n  - {part: U1, kind: controller, protocols: [PD3.0, PPS], ports: [C]}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(ControllerUse use, IProductHitSink hits)
    {
        foreach (ProtocolWord protocol in use.Protocols.Where(protocol => !use.Ports.IsEmpty && use.Ports.All(port => IsNotAnswered(use, port, protocol))))
        {
            Phrase nobody = use.Ports.Length == 1 ? Phrase.Of($"{use.Ports[0]} does not") : Phrase.Of($"none of {Phrase.JoinNames(", ", use.Ports)} does");
            hits.Report(
                this,
                new Hit(default, $"{use.Controller.Name} does {protocol.Text}; {nobody} answer to it.")
                {
                    IsNote = true, Expected = $"{protocol.Text}", Observed = "no such offer or answer",
                },
                new ProductPlace(use.Ports[0], []));
        }
    }

    private static bool IsNotAnswered(ControllerUse use, string port, ProtocolWord protocol)
    {
        PortOffer[] offers = [.. use.Offers.Where(offer => PortNames.Same(offer.Port, port))];
        bool isWhole = offers.Length > 0 && offers.All(static offer => !offer.HidesObjects && !offer.MayListMore);
        return protocol.Meaning switch
        {
            ProtocolMeaning.PowerDelivery => false,
            ProtocolMeaning.Pps => isWhole && !Offers(offers, PowerObjectKind.Pps),
            ProtocolMeaning.Avs => isWhole && offers.All(static offer => !offer.MayHideSprAvs && !offer.MayHideEpr)
                && !Offers(offers, PowerObjectKind.SprAvs) && !Offers(offers, PowerObjectKind.EprAvs),
            ProtocolMeaning.Epr => isWhole && offers.All(static offer => offer is { EprCapable: false, ShowsEpr: false }),
            _ => use.Signalling.FirstOrDefault(one => PortNames.Same(one.Port, port))?.Words is { } words
                && words.Any(word => word.Denied && word.IsOf(protocol.Text)) && !words.Any(word => !word.Denied && word.IsOf(protocol.Text)),
        };
    }

    private static bool Offers(PortOffer[] offers, PowerObjectKind kind) =>
        offers.SelectMany(static offer => offer.Earlier.Append(offer)).Any(offer => offer.List.Objects.Any(offered => offered.Is(kind)));
}
