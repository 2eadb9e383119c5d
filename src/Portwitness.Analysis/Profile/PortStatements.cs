using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Profile;

/// <summary>Where in a capture something was said.</summary>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="MessageIndex">Counted from 1.</param>
/// <param name="InUse">Ports in use then.</param>
public readonly record struct StatementPlace(long TimeUs, long MessageIndex, ImmutableArray<string> InUse);

/// <summary>A Source_Info of the port (R3.2v1.1, 6.4.11), with the lists that it speaks of.</summary>
/// <param name="Place">Where it was said.</param>
/// <param name="Info">What it says.</param>
/// <param name="Spr">The port's last Source_Capabilities before it; null without one.</param>
/// <param name="Epr">The port's last EPR_Source_Capabilities before it; null without one.</param>
/// <param name="NothingMissed">No message of the port can have been missed since the later of the two.</param>
public sealed record SourceInfoStatement(
    StatementPlace Place, SourceInfoObject Info, Advertisement? Spr, Advertisement? Epr, bool NothingMissed);

/// <summary>The ratings in a Source_Capabilities_Extended of the port (R3.2v1.1, Table 6.54).</summary>
/// <param name="Place">Where they were said.</param>
/// <param name="Spr">SPR Source PDP Rating.</param>
/// <param name="Epr">EPR Source PDP Rating; null in the shorter block of older editions.</param>
public sealed record RatingStatement(StatementPlace Place, Power Spr, Power? Epr);

/// <summary>What one port says of itself in a whole capture: what rules over several messages look at.</summary>
public sealed record PortStatements
{
    /// <summary>The port's capability lists in order, as source and as sink; not those of its partner.</summary>
    public required IReadOnlyList<Advertisement> Lists { get; init; }

    /// <summary>Its Source_Info messages in order.</summary>
    public required IReadOnlyList<SourceInfoStatement> Infos { get; init; }

    /// <summary>Its ratings in order.</summary>
    public required IReadOnlyList<RatingStatement> Ratings { get; init; }

    /// <summary>What is known of the port besides, for a list that was received while it was alone, or with others.</summary>
    public required Func<Advertisement, SourceEvidence> EvidenceFor { get; init; }

    /// <summary>PD power printed for the port alone; null when none is.</summary>
    public Power? Printed { get; init; }

    /// <summary>Where a list stands.</summary>
    public static StatementPlace PlaceOf(Advertisement list) => new(list.TimeUs, list.MessageIndex, list.InUse);
}
