using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>PS_RDY is held to tSrcTransReq, and between fixed voltages to the begin of tSrcTransition.</summary>
internal sealed class SourceTransitionLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "source-transition-late",
        "PS_RDY comes too early or too late after a change of power",
        "R3.2v1.1 Table 6.68 (tSrcTransReq, tSrcTransition)",
        "Until PS_RDY a device draws next to nothing, and after half a second it resets. Too early, and it draws "
            + "before the voltage is there.",
        new ScriptExample(
            """
            edition: R3.2
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - request 2 at 3A
              - accept
              - ready after 420ms
            """,
            "PS_RDY after 420 ms."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TSrcTransReqSpr, TimingLimits.TSrcTransReqEpr, TimingLimits.TSrcTransition,
    ];
}
