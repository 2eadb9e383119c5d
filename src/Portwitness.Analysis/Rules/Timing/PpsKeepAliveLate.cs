using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>Silence in a PPS contract is held to tPPSRequest and tPPSTimeout.</summary>
internal sealed class PpsKeepAliveLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "pps-keep-alive-late",
        "A programmable supply stays on without being asked again",
        "R3.2v1.1 Table 6.68 (tPPSRequest, tPPSTimeout)",
        "A sink in PPS repeats its request every ten seconds; when it falls silent, the source must end the "
            + "contract within fifteen. A battery would otherwise be charged by a device that hangs.",
        new ScriptExample(
            """
            source: [5V 3A, PPS 5-11V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 9V 3A
              - pause 17s
              - contract 2 at 9V 3A
              - contract 2 at 9V 3A
            """,
            "17 s of silence, and no Hard Reset."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TPPSRequest, TimingLimits.TPPSTimeout,
    ];
}
