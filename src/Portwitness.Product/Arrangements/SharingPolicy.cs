using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Product.Arrangements;

/// <summary>How a product shares its power between ports.</summary>
public enum SharingKind
{
    /// <summary>The evidence does not settle it.</summary>
    Unknown,

    /// <summary>Every port gives at any time what it gives alone (an assured capacity charger).</summary>
    NoSharing,

    /// <summary>Each port has a power of its own while others are in use, whatever the attach order.</summary>
    FixedSplit,

    /// <summary>Ports that are reduced are reduced to the same power, whatever the attach order.</summary>
    EqualSplit,

    /// <summary>What was attached first keeps more.</summary>
    FirstAttachedFirst,

    /// <summary>What was attached last is given more.</summary>
    LastAttachedFirst,

    /// <summary>The attach order decides, in no way that can be named.</summary>
    ByAttachOrder,

    /// <summary>All ports fall back to 5 V.</summary>
    FiveVoltPool,

    /// <summary>Different combinations of ports are shared in different ways.</summary>
    Mixed,
}

/// <summary>How a product shares, in one sentence, with the evidence.</summary>
/// <param name="Kind">In one word.</param>
/// <param name="Sentence">For people.</param>
/// <param name="Evidence">The offers that show it, each with its captures.</param>
/// <param name="Verdict"><see cref="Verdict.Holds"/>, or <see cref="Verdict.CannotTell"/> where the evidence does not settle it.</param>
/// <param name="NextStep">What to capture next when it does not; otherwise empty.</param>
public sealed record SharingPolicy(SharingKind Kind, Phrase Sentence, Phrase Evidence, Verdict Verdict, Phrase NextStep);
