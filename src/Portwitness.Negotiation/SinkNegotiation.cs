using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>One request of a device, as it goes over the wire.</summary>
/// <param name="Terms">What is asked for.</param>
/// <param name="Request">The request's word.</param>
/// <param name="InEprMode">Sent as EPR_Request, with a copy of the object (R3.2v1.1, 6.4.9).</param>
public sealed record DeviceRequest(SinkRequest Terms, RequestObject Request, bool InEprMode)
{
    /// <summary>Request or EPR_Request.</summary>
    public MessageKind Message => InEprMode ? MessageKind.EPRRequest : MessageKind.Request;
}

/// <summary>What a device of a description would be granted by a source.</summary>
public sealed record SinkNegotiation
{
    /// <summary>The source's lists.</summary>
    public required SourceOffer Offer { get; init; }

    /// <summary>The device.</summary>
    public required SinkDescription Sink { get; init; }

    /// <summary>How it chooses.</summary>
    public required SinkPolicy Policy { get; init; }

    /// <summary>Its first request, in SPR mode, of a supply with nothing to adjust where it can use one. Null when it can use none.</summary>
    public required DeviceRequest? Start { get; init; }

    /// <summary>The request that it comes to.</summary>
    public required DeviceRequest? Best { get; init; }

    /// <summary>Nothing that is offered reaches the wish, so that requests say Capability Mismatch (R3.2v1.1, 6.4.2.3).</summary>
    public required bool CapabilityMismatch { get; init; }

    /// <summary>What it makes of each object, in the order of the list.</summary>
    public required ImmutableArray<OfferUse> Uses { get; init; }

    /// <summary>Whether it comes to the power that it would like.</summary>
    public required Verdict GetsWish { get; init; }

    /// <summary>Whether it comes to the power that it needs; holds when it states none and gets any.</summary>
    public required Verdict GetsMinimum { get; init; }

    /// <summary>What to capture where more may be offered than was seen.</summary>
    public required ImmutableArray<string> NextSteps { get; init; }

    /// <summary>The power at best; zero when it can use nothing.</summary>
    public Power Power => Best?.Terms.Power ?? Power.Zero;
}
