using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>A voltage, or a range of voltage, that a device takes.</summary>
/// <param name="Minimum">Lower end; the same as the upper one for a single voltage.</param>
/// <param name="Maximum">Upper end.</param>
/// <param name="Most">The largest current that the device draws there; null for as much as its wish needs.</param>
public sealed record SinkIntake(Voltage Minimum, Voltage Maximum, Current? Most);

/// <summary>What a device takes and wants: all that decides what it asks a source for.</summary>
public sealed record SinkDescription
{
    /// <summary>A short name.</summary>
    public required string Name { get; init; }

    /// <summary>One line about the device; empty when nothing is said.</summary>
    public string Title { get; init; } = "";

    /// <summary>Voltages of fixed supplies that it takes, 5 V among them (R3.2v1.1, 6.4.1.4).</summary>
    public required ImmutableArray<SinkIntake> Fixed { get; init; }

    /// <summary>Ranges of programmable supplies that it uses.</summary>
    public ImmutableArray<SinkIntake> Pps { get; init; } = [];

    /// <summary>Ranges of adjustable supplies that it uses, SPR and EPR.</summary>
    public ImmutableArray<SinkIntake> Avs { get; init; } = [];

    /// <summary>Ranges within which a variable or a battery supply may be anywhere.</summary>
    public ImmutableArray<SinkIntake> Variable { get; init; } = [];

    /// <summary>The power that it would like.</summary>
    public required Power Wish { get; init; }

    /// <summary>The power below which it is of no use; null when nothing is said.</summary>
    public Power? Minimum { get; init; }

    /// <summary>The cable that it is used with: 3 A, 5 A or EPR.</summary>
    public CableEvidence Cable { get; init; } = CableEvidence.ThreeAmpere;

    /// <summary>The edition that it follows.</summary>
    public Editions Edition { get; init; } = Editions.R32;

    /// <summary>Whether it takes more than SPR gives, so that it enters EPR mode where it can.</summary>
    public bool UsesEpr => Fixed.Concat(Avs).Any(static intake => intake.Maximum > Electrical.SprMaximumFixed);

    /// <summary>What its cable carries (R3.2v1.1, 4.4).</summary>
    public Current CableMaximum =>
        Cable == CableEvidence.ThreeAmpere ? Electrical.UnmarkedCableMaximum : Electrical.ConnectorMaximum;
}
