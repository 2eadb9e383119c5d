using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Loads;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Converters;

/// <summary>A converter with what is printed and measured of its ports together.</summary>
/// <param name="Converter">The converter.</param>
/// <param name="Label">The label; null when none is given.</param>
/// <param name="Loads">Ports under load.</param>
/// <param name="Offers">What ports offered under each arrangement.</param>
public sealed record ConverterUse(ProductConverter Converter, Label? Label, ImmutableArray<LoadEvidence> Loads, ImmutableArray<PortOffer> Offers)
{
    // Every device may stay at vSafe5V (R3.2v1.1, 4.1), whatever else is offered.
    private static readonly Voltage Common = Voltage.FromMillivolts(5_000);

    /// <summary>Printed combinations of several of its ports, as far as label and modes say what they need, with the voltages that would do.</summary>
    public IEnumerable<(PrintedCombination Combination, ImmutableArray<string> Ports, ImmutableArray<Voltage> Common)> Printed()
    {
        foreach (PrintedCombination combination in Label?.Combinations ?? [])
        {
            ImmutableArray<string> ports = [.. combination.Ports.Where(Feeds)];
            if (ports.Length > 1 && CommonVoltages.Of(Label!, combination, ports) is { } common)
            {
                yield return (combination, ports, common);
            }
        }
    }

    /// <summary>Its ports that a label which names its ports does not name.</summary>
    public ImmutableArray<string> NotOnLabel =>
        Label is not { Outputs: [_, ..] outputs } label || outputs.All(static output => output.Port == PortNames.Unnamed) ? [] : [.. Converter.Ports.Where(port => !label.Names(port))];

    /// <summary>Two of its ports that were measured at once, at different voltages; null when none were.</summary>
    public (LoadEvidence One, LoadEvidence Other)? MeasuredApart()
    {
        foreach (IGrouping<string, LoadEvidence> together in Loads.Where(load => Feeds(load.Port))
            .GroupBy(static load => string.Join('+', load.InUse.Select(PortNames.Key).Order(StringComparer.Ordinal))))
        {
            LoadEvidence first = together.First();
            if (first.InUse.Length > 1 && together.FirstOrDefault(load => load.At != first.At && !PortNames.Same(load.Port, first.Port)) is { } other
                && together.Count(load => PortNames.Same(load.Port, first.Port) || PortNames.Same(load.Port, other.Port)) == 2)
            {
                return (first, other);
            }
        }

        return null;
    }

    /// <summary>
    /// The offer of one of its ports, beside another that was in use, with the highest voltage above 5 V, where the device at the other may stay; null
    /// when all fell back to 5 V.
    /// </summary>
    public (PortOffer Offer, string Beside, Voltage Highest)? OfferedApart()
    {
        (PortOffer, string, Voltage)? apart = null;
        foreach (PortOffer offer in Offers.Where(offer => !offer.IsUnchecked && Feeds(offer.Port)))
        {
            Voltage highest = offer.List.Objects.Select(static one => one.IsZero ? null : one.HighestVoltage()).Max() ?? Common;
            if (highest > Common && highest > (apart?.Item3 ?? Common)
                && offer.InUse.FirstOrDefault(other => Feeds(other) && !PortNames.Same(other, offer.Port)) is { } beside)
            {
                apart = (offer, beside, highest);
            }
        }

        return apart;
    }

    private bool Feeds(string port) => Converter.Ports.Any(own => PortNames.Same(own, port));
}
