using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>A Hard Reset after a Soft_Reset that nobody acknowledged is held to tHardReset.</summary>
internal sealed class HardResetMistimed : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "hard-reset-mistimed",
        "A Hard Reset comes too late after a Soft_Reset that failed",
        "R3.2v1.1 Table 6.68 (tHardReset)",
        "When not even a Soft_Reset is heard, the Hard Reset has to follow at once; until then the port gives a "
            + "power that nobody controls.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - send source Soft_Reset with drop-goodcrc 3
              - pause 60ms
              - hard-reset
            """,
            "60 ms from the last attempt at Soft_Reset to the Hard Reset."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.THardReset,
    ];
}
