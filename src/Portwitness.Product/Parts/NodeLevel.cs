using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Parts;

/// <summary>How the voltage of a node is known.</summary>
public enum NodeBasis
{
    /// <summary>It is not.</summary>
    None,

    /// <summary>A capture shows what the port offers.</summary>
    Offered,

    /// <summary>It is printed, as an output or an input of the port.</summary>
    Printed,

    /// <summary>Cells in series, as they are stated.</summary>
    Cells,
}

/// <summary>The most that a node of the board sees.</summary>
/// <param name="Basis">How it is known.</param>
/// <param name="Highest">The highest steady voltage; null when it is not known.</param>
/// <param name="Moment">How far it may go for a moment: on VBUS vSrcNew, and vSrcValid on top of that (R3.2v1.1, Table 7.23).</param>
/// <param name="Largest">The largest current that is offered or printed; null when none is known.</param>
/// <param name="From">What the voltage was taken from.</param>
public sealed record NodeLevel(NodeBasis Basis, Voltage? Highest, Voltage? Moment, Current? Largest, Phrase From)
{
    /// <summary>Each output that is offered or printed, at its highest voltage: of the port, or of all ports for the pack.</summary>
    public ImmutableArray<(Voltage Voltage, Current Current)> Outputs { get; init; } = [];

    /// <summary>Whether the largest current was reckoned from the power of the ports and a usual efficiency.</summary>
    public bool CurrentIsReckoned { get; init; }

    /// <summary>What is only printed beyond what is known; null when nothing is.</summary>
    public NodeLevel? Beyond { get; init; }

    /// <summary>What breaks a rating: this level where it does, so that a promise hides nothing that is known; else what is printed beyond it.</summary>
    public NodeLevel Against(Voltage rated) => rated < Moment || Beyond is null ? this : Beyond;

    /// <summary>Nothing is known.</summary>
    public static NodeLevel Unknown { get; } = new(NodeBasis.None, null, null, null, Phrase.Empty);
}
