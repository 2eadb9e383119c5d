using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>The end of the entry is held to tEnterEPR.</summary>
internal sealed class EprEntryLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "epr-entry-late",
        "The entry into EPR mode takes too long",
        "R3.2v1.1 Table 6.68 (tEnterEPR)",
        "A device that asks for more than 100 W waits half a second and then resets; a source that asks its cable "
            + "too slowly never gets beyond 100 W.",
        new ScriptExample(
            """
            cable: EPR captive
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - attach
              - advertise
              - contract 4 at 5A epr
              - send sink EPR_Mode 0x018C0000
              - send source EPR_Mode 0x02000000
              - pause 700ms
              - send source EPR_Mode 0x03000000
            """,
            "700 ms to Enter Succeeded."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TEnterEPR,
    ];
}
