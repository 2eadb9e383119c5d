using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Profile;

/// <summary>When a cable matters.</summary>
public enum CableMoment
{
    /// <summary>A source offers more than 3 A.</summary>
    OfferAbove3A,

    /// <summary>A source says EPR_Mode Enter Succeeded.</summary>
    EprEntered,

    /// <summary>A plug answers Discover Identity.</summary>
    Answer,
}

/// <summary>What the capture shows of the question to the cable since the attach.</summary>
public enum CableInquiry
{
    /// <summary>The cable was not asked.</summary>
    NotAsked,

    /// <summary>It was asked and said nothing.</summary>
    Unanswered,

    /// <summary>Something was said that cannot be read as an identity, or was received wrongly.</summary>
    Unclear,

    /// <summary>It told its identity.</summary>
    Answered,
}

/// <summary>One moment at which the cable matters, with what is known of the cable then.</summary>
public sealed record CableCase
{
    /// <summary>What happens.</summary>
    public required CableMoment Moment { get; init; }

    /// <summary>Microseconds from the start of the capture.</summary>
    public required long TimeUs { get; init; }

    /// <summary>The message, counted from 1.</summary>
    public required long MessageIndex { get; init; }

    /// <summary>Ports in use at that time.</summary>
    public ImmutableArray<string> InUse { get; init; } = [];

    /// <summary>What was asked before, and answered.</summary>
    public CableInquiry Inquiry { get; init; }

    /// <summary>Whether the capture shows the attach, and so everything since.</summary>
    public bool SinceAttach { get; init; }

    /// <summary>Whether the instrument records SOP': stated or seen; null when neither.</summary>
    public bool? RecordsSopPrime { get; init; }

    /// <summary>The cable is fixed to the product, as product file or header state.</summary>
    public bool Captive { get; init; }

    /// <summary>What the capture's header states of the cable.</summary>
    public CaptureCable? Stated { get; init; }

    /// <summary>Editions that the source may follow.</summary>
    public Editions Editions { get; init; } = Editions.All;

    /// <summary>Of an offer: position and current of the object that needs more than 3 A.</summary>
    public (int Position, Current Current)? Offer { get; init; }

    /// <summary>The answer, or the one that suits best of those before.</summary>
    public CableAnswer? Answer { get; init; }

    /// <summary>Of an answer: the last one before it since the attach, of the same plug or of the other one.</summary>
    public CableAnswer? Before { get; init; }
}
