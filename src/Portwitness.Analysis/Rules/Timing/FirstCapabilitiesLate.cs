using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>The first list is held to tFirstSourceCap.</summary>
internal sealed class FirstCapabilitiesLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "first-capabilities-late",
        "The first capabilities come too late",
        "R3.2v1.1 Table 6.68 (tFirstSourceCap)",
        "A device waits for the first list after an attach or reset and then resets the port: charging begins "
            + "late, or not at all.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - soft-reset sink
              - pause 400ms
              - advertise
            """,
            "400 ms from the Soft_Reset's Accept to the list."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TFirstSourceCap,
    ];
}
