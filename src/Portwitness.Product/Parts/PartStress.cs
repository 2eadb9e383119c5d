using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Parts;

/// <summary>A part and the most that its node is offered.</summary>
/// <param name="Part">The part.</param>
/// <param name="IsOnPort">Whether its node is a port, as far as the label says what ports there are.</param>
/// <param name="HighestVoltage">The highest voltage that any object of the port offers; null when none was captured.</param>
/// <param name="HighestMoment">How far VBUS may go for a moment above it: vSrcNew, and vSrcValid on top of that (R3.2v1.1, Table 7.23).</param>
/// <param name="LargestCurrent">The largest current that any object offers; null when none was shown.</param>
/// <param name="Highest">The object with the highest voltage, and where it was received.</param>
public sealed record PartStress(
    ProductPart Part, bool IsOnPort, Voltage? HighestVoltage, Voltage? HighestMoment, Current? LargestCurrent, Phrase Highest)
{
    // Nodes within the product that no connector is on.
    private static readonly string[] InnerNodes = ["pack", "bridge", "mains"];

    /// <summary>Each part with what its node is offered over all arrangements.</summary>
    public static ImmutableArray<PartStress> Of(ImmutableArray<ProductPart> parts, IReadOnlyList<PortOffer> offers, Label? label)
    {
        ILookup<string, PortOffer> byPort = offers.ToLookup(offer => PortNames.Key(offer.Port));
        return [.. parts.Select(part => Of(part, [.. byPort[PortNames.Key(part.Node)]], IsPort(part.Node, label)))];
    }

    // A label that names its ports names all of them; an output without a name may be any.
    private static bool IsPort(string node, Label? label) => !InnerNodes.Contains(node, StringComparer.OrdinalIgnoreCase)
        && (label is null || label.Outputs.All(static output => output.Port == PortNames.Unnamed) || label.FindOutput(node) is not null
            || label.Inputs.Any(input => PortNames.Same(input.Port, node)));

    private static PartStress Of(ProductPart part, PortOffer[] offers, bool isPort)
    {
        (Voltage? highest, Current? current, Phrase of) = (null, null, Phrase.Empty);
        foreach (PortOffer offer in offers.SelectMany(static offer => offer.Earlier.Append(offer)))
        {
            foreach (OfferedObject offered in offer.List.Objects.Where(offered => offered.KindIsKnown && !offered.IsZero && offered.Kind != PowerObjectKind.Reserved))
            {
                if (offered.HighestVoltage() is { } volts && (highest is not { } so || volts > so))
                {
                    (highest, of) = (volts, $"object {offered.Position}, {offered} ({offer.Place})");
                }

                if (offered.MaximumCurrent() is { } amperes && (current is not { } most || amperes > most))
                {
                    current = amperes;
                }
            }
        }

        return new PartStress(
            part, isPort || offers.Length > 0, highest, highest is { } top ? VbusLimits.OfFixed(top).Maximum + VbusLimits.SrcValid : null, current, of);
    }
}
