using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Messages;

/// <summary>A rule about what one message holds, whoever sends it. Which edition the sender follows is settled at the end.</summary>
internal abstract class ContentRule : Rule
{
    /// <summary>What is wrong with a message; null when nothing is. The message was received rightly, with all its bits shown.</summary>
    public abstract ContentFault? Find(in HeardMessage message);
}

/// <summary>What is wrong with the content of a message.</summary>
/// <param name="Detail">A sentence.</param>
/// <param name="Expected">What would have been right.</param>
/// <param name="Observed">What was seen.</param>
internal sealed record ContentFault(Phrase Detail, Phrase Expected, Phrase Observed)
{
    /// <summary>Editions under which it is wrong.</summary>
    public Editions WrongUnder { get; init; } = Editions.All;

    /// <summary>Those of them that were read, so that it is known.</summary>
    public Editions Read { get; init; } = Editions.R32;

    /// <summary>Only a version that is known to be no newer than R3.2v1.1 settles it: a newer one may give it a meaning.</summary>
    public bool MayBeNewer { get; init; }

    /// <summary>Worth knowing, but no fault.</summary>
    public bool IsNote { get; init; }
}
