using System.Collections.Immutable;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules;

/// <summary>Takes what rules about a whole product find.</summary>
public interface IProductHitSink
{
    /// <summary>Takes one case, with its place.</summary>
    void Report(Rule rule, in Hit hit, in ProductPlace place);
}

/// <summary>Where something about a product was seen. What does not apply is null or empty.</summary>
/// <param name="Port">The port.</param>
/// <param name="InUse">Ports in use, in attach order.</param>
public readonly record struct ProductPlace(string Port, ImmutableArray<string> InUse)
{
    /// <summary>The capture.</summary>
    public string? File { get; init; }

    /// <summary>Microseconds from its start.</summary>
    public long? TimeUs { get; init; }

    /// <summary>Counted from 1.</summary>
    public long? MessageIndex { get; init; }

    /// <summary>Where an offer was received.</summary>
    public static ProductPlace Of(PortOffer offer) => new(offer.Port, offer.InUse)
    {
        File = offer.File, TimeUs = offer.List.TimeUs, MessageIndex = offer.List.MessageIndex,
    };
}
