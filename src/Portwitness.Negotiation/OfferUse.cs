using System.Collections.Immutable;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>Why an object is, or is not, what a device asks for.</summary>
public enum OfferOutcome
{
    /// <summary>The device asks for it.</summary>
    Chosen,

    /// <summary>It gives less than what is chosen.</summary>
    LessPower,

    /// <summary>It gives as much, or more; the policy prefers another.</summary>
    Policy,

    /// <summary>The device does not take its voltage.</summary>
    Voltage,

    /// <summary>The device's range and its range do not meet.</summary>
    Range,

    /// <summary>What it offers, or what the device wants, is less than can be asked for.</summary>
    Current,

    /// <summary>The device does not use this kind of supply.</summary>
    Kind,

    /// <summary>The device's edition does not know this kind of supply.</summary>
    Edition,

    /// <summary>The device's cable does not carry its voltage.</summary>
    Cable,

    /// <summary>It needs EPR mode, which is not entered.</summary>
    Mode,

    /// <summary>The instrument did not show enough of it.</summary>
    NotShown,

    /// <summary>No supply: padding, a reserved kind, no power, or a position that a request cannot name.</summary>
    NoSupply,
}

/// <summary>What a device makes of one object.</summary>
/// <param name="Offered">The object.</param>
/// <param name="Possible">What it could ask for of it; null when nothing.</param>
/// <param name="Outcome">What comes of it.</param>
/// <param name="Why">In words.</param>
public sealed record OfferUse(OfferedObject Offered, SinkRequest? Possible, OfferOutcome Outcome, string Why)
{
    /// <summary>The most power that the object itself offers; null when that was not shown.</summary>
    public Power? Most { get; init; }

    /// <summary>
    /// Of an adjustable supply, what the device can draw at each voltage that both reach, its cable regarded and its wish not. The
    /// parts are in the order of the device's ranges.
    /// </summary>
    public ImmutableArray<CurveSegment> Curve { get; init; } = [];

    /// <summary>Whether it offers more power than the device comes to.</summary>
    public bool IsBetter { get; init; }
}
