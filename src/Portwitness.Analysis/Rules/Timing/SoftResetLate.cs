using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>A Soft_Reset after retries that failed is held to tSoftReset.</summary>
internal sealed class SoftResetLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "soft-reset-late",
        "A Soft_Reset comes too late after a message that was not acknowledged",
        "R3.2v1.1 Table 6.68 (tSoftReset)",
        "After a message that nobody acknowledges the partners do not agree any more on what is in force; the "
            + "reset that ends this has to follow at once.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - send source Get_Sink_Cap with drop-goodcrc 3
              - pause 60ms
              - soft-reset source
            """,
            "62 ms from the last attempt to Soft_Reset."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TSoftReset,
    ];
}
