using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>Silence in EPR mode is held to tSinkEPRKeepAlive and tSourceEPRKeepAlive.</summary>
internal sealed class EprKeepAliveLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "epr-keep-alive-late",
        "EPR mode stays on without a sign of life",
        "R3.2v1.1 Table 6.68 (tSinkEPRKeepAlive, tSourceEPRKeepAlive)",
        "Above 20 V the sink shows every half second that it is there; when it does not, the source must take the "
            + "voltage away within a second. It is what protects whoever pulls the plug.",
        new ScriptExample(
            """
            cable: EPR captive
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - attach
              - advertise
              - contract 4 at 5A epr
              - enter-epr at 140W
              - contract 8 at 5A
              - pause 2s
              - keep-alive
              - keep-alive
            """,
            "2 s of silence in EPR mode, and no Hard Reset."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TSinkEPRKeepAlive, TimingLimits.TSourceEPRKeepAlive,
    ];
}
