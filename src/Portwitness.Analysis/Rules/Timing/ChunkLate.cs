using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>Chunks and requests for them are held to their times.</summary>
internal sealed class ChunkLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "chunk-late",
        "A chunk, or the request for it, comes too late",
        "R3.2v1.1 Table 6.68 (tChunkReceiverRequest, tChunkReceiverResponse, tChunkingNotSupported)",
        "The list of an EPR charger comes in two chunks. When one is late the other side gives up, and the device "
            + "stays at 100 W or less.",
        new ScriptExample(
            """
            cable: EPR captive
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - attach
              - advertise
              - contract 4 at 5A epr
              - send sink Extended_Control 0100
              - raw source B1F7 2480 2C91 8108 2CD1 0200 2CB1 0400 F441 0600 F4B1 04E0 0000 0000 0000
              - raw sink 9194 008C 0000
              - pause 25ms
              - raw source B1B9 2488 0000 F4C1 0800 8C96 30D2
            """,
            "Chunk 1 comes 27 ms after it was asked for."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TChunkReceiverRequest, TimingLimits.TChunkReceiverResponse, TimingLimits.TChunkingNotSupported,
    ];
}
