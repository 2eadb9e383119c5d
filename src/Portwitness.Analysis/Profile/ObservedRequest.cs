using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;

namespace Portwitness.Analysis.Profile;

/// <summary>How a source answered a request.</summary>
public enum RequestAnswer
{
    /// <summary>Not at all, as far as the capture shows.</summary>
    None,

    /// <summary>Accept.</summary>
    Accepted,

    /// <summary>Reject.</summary>
    Rejected,

    /// <summary>Wait.</summary>
    Wait,

    /// <summary>With a reset, or Not_Supported.</summary>
    Refused,
}

/// <summary>A request, what it refers to, and what became of it: what request rules look at.</summary>
public readonly record struct ObservedRequest
{
    /// <summary>A request that nobody has answered yet.</summary>
    public ObservedRequest()
    {
    }

    /// <summary>Where it was sent.</summary>
    public required StatementPlace Place { get; init; }

    /// <summary>Request or EPR_Request.</summary>
    public required MessageKind Message { get; init; }

    /// <summary>The request; every bit of it was shown.</summary>
    public required RequestObject Request { get; init; }

    /// <summary>The copy of the object in an EPR_Request; null when there is none.</summary>
    public required SourcePowerObject? Copy { get; init; }

    /// <summary>The header of the request says revision 3.</summary>
    public required bool SaysRevision3 { get; init; }

    /// <summary>The list in force; empty when the capture shows none.</summary>
    public required ImmutableArray<OfferedObject> Offers { get; init; }

    /// <summary>Whether EPR mode was entered; null when that was not shown.</summary>
    public required bool? EprMode { get; init; }

    /// <summary>Sent by the partner of the captured port, so that the answer is the port's.</summary>
    public required bool ByPartner { get; init; }

    /// <summary>Whether the capture shows which side has which power role.</summary>
    public bool RoleIsCertain { get; init; } = true;

    /// <summary>The answer.</summary>
    public RequestAnswer Answer { get; init; }

    /// <summary>Where the answer was sent; where the request was, without one.</summary>
    public StatementPlace AnswerPlace { get; init; }

    /// <summary>No message of the source can have been missed since the list.</summary>
    public bool NothingMissed { get; init; }

    /// <summary>After the answer the source showed that its list had not changed: it sent the same, or granted from it.</summary>
    public bool ListStayed { get; init; }

    /// <summary>After the answer the source sent another list.</summary>
    public bool ListChanged { get; init; }

    /// <summary>What is known of the port.</summary>
    public SourceEvidence Evidence { get; init; } = SourceEvidence.None;
}
