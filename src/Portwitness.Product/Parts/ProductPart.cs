using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Parts;

/// <summary>What a part is, as far as rules of its own depend on it.</summary>
public enum PartKind
{
    /// <summary>A switch, a capacitor, a fuse or anything else with a rated voltage or current.</summary>
    Rated,

    /// <summary>A diode that clamps what is too high.</summary>
    Tvs,

    /// <summary>A resistor that current is measured with.</summary>
    SenseResistor,

    /// <summary>The coil of a converter.</summary>
    Inductor,

    /// <summary>Contacts of a connector that share a current.</summary>
    Contacts,

    /// <summary>Contacts of a ribbon that share a current.</summary>
    Ribbon,

    /// <summary>A cable to the port's plug.</summary>
    Cable,
}

/// <summary>One part of the board, as "parts:" of a product file names it.</summary>
/// <param name="Name">Its name on the board.</param>
/// <param name="Node">The port whose VBUS it is on, "pack" or "bridge".</param>
/// <param name="Volts">Rated voltage; null when not stated.</param>
/// <param name="Amperes">Rated current; null when not stated.</param>
/// <param name="HeadroomPpm">Share of the rating that is to stay free, in millionths.</param>
/// <param name="Line">Line of the product file.</param>
/// <param name="Column">Its column.</param>
public sealed record ProductPart(string Name, string Node, Voltage? Volts, Current? Amperes, int HeadroomPpm, int Line, int Column)
{
    /// <summary>Where nothing is stated: a fifth of the rating stays free (common practice, no source).</summary>
    public const int UsualHeadroomPpm = 200_000;

    /// <summary>A quarter of a fuse's rating stays free at 25 °C (common practice, no source).</summary>
    public const int FuseHeadroomPpm = 250_000;

    /// <summary>What it is.</summary>
    public PartKind Kind { get; init; }

    /// <summary>Whether the teardown's ledger names it.</summary>
    public bool IsOfLedger { get; init; }

    /// <summary>Whether it was only inferred what it is: then it accuses nobody.</summary>
    public bool IsInferred { get; init; }

    /// <summary>The highest voltage at which a TVS does not conduct yet.</summary>
    public Voltage? Standoff { get; init; }

    /// <summary>The voltage that a TVS lets through at its rated pulse.</summary>
    public Voltage? Clamp { get; init; }

    /// <summary>Resistance of a sense resistor, of one MOSFET at 25 °C, or of a cable there and back, in µΩ.</summary>
    public int? Microohms { get; init; }

    /// <summary>The power that a sense resistor, or one MOSFET, may turn into heat.</summary>
    public Power? Watts { get; init; }

    /// <summary>The current at which a coil saturates.</summary>
    public Current? Saturation { get; init; }

    /// <summary>Inductance of a coil, in nH.</summary>
    public int? Nanohenries { get; init; }

    /// <summary>Frequency of its converter, in Hz.</summary>
    public int? Hertz { get; init; }

    /// <summary>How many contacts share the current.</summary>
    public int? Contacts { get; init; }

    /// <summary>What one contact may carry.</summary>
    public Current? PerContact { get; init; }

    /// <summary>How many of it share the current.</summary>
    public int Parallel { get; init; } = 1;

    /// <summary>The ripple current that one capacitor may carry, rms.</summary>
    public Current? Ripple { get; init; }

    /// <summary>Length of a cable, in mm.</summary>
    public int? Millimetres { get; init; }

    /// <summary>American wire gauge of a cable's power wires.</summary>
    public int? Gauge { get; init; }
}
