using System.Collections.Immutable;
using Portwitness.Analysis.Arrangements;
using Portwitness.Analysis.Comparison;

namespace Portwitness.Analysis.Rules.Arrangements;

/// <summary>A rule about several ports of a product together.</summary>
public abstract class ArrangementRule : Rule
{
    /// <summary>Looks at what the captures show together, and reports what breaks this rule.</summary>
    public abstract void Check(ProductArrangements product, IArrangementHitSink hits);
}

/// <summary>Takes what rules about arrangements find.</summary>
public interface IArrangementHitSink
{
    /// <summary>Takes one case, with its place.</summary>
    void Report(Rule rule, in Hit hit, in ArrangementPlace place);
}

/// <summary>Where something about several ports was seen. What does not apply is null or empty.</summary>
/// <param name="Port">The port.</param>
/// <param name="InUse">Ports in use, in attach order.</param>
public readonly record struct ArrangementPlace(string Port, ImmutableArray<string> InUse)
{
    /// <summary>The capture.</summary>
    public string? File { get; init; }

    /// <summary>Microseconds from its start.</summary>
    public long? TimeUs { get; init; }

    /// <summary>Counted from 1.</summary>
    public long? MessageIndex { get; init; }

    /// <summary>Where an offer was received.</summary>
    public static ArrangementPlace Of(PortOffer offer) => new(offer.Port, offer.InUse)
    {
        File = offer.File, TimeUs = offer.List.TimeUs, MessageIndex = offer.List.MessageIndex,
    };
}
