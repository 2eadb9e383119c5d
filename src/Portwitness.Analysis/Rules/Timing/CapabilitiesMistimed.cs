using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>Lists that are not acknowledged are held to tTypeCSendSourceCap.</summary>
internal sealed class CapabilitiesMistimed : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "capabilities-mistimed",
        "Capabilities are repeated too fast or too slowly",
        "R3.2v1.1 Table 6.68 (tTypeCSendSourceCap)",
        "A device that is switched on late waits for the next list. Too slow, and it resets or stays at 5 V; too "
            + "fast, and its own messages are disturbed.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise with drop-goodcrc 3
              - pause 400ms
              - advertise
              - contract 2 at 3A
            """,
            "400 ms between two lists that nobody acknowledges, after a first that was."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TTypeCSendSourceCap,
    ];
}
