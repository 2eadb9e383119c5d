using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>The request after Wait is held to tSinkRequest.</summary>
internal sealed class RequestAfterWaitEarly : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "request-after-wait-early",
        "A sink asks again too early after Wait",
        "R3.2v1.1 Table 6.68 (tSinkRequest)",
        "Wait means that the source needs time. A test device that does not wait may push the source into Reject "
            + "or a reset, and the result says little about the source.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - request 2 at 3A
              - wait
              - send sink Request 0x2004B12C
              - accept
              - ready
            """,
            "The sink asks again 2 ms after Wait."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TSinkRequest,
    ];
}
