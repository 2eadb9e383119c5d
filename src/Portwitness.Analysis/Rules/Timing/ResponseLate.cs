using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>An answer is held to tReceiverResponse.</summary>
internal sealed class ResponseLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "response-late",
        "An answer comes too late",
        "R3.2v1.1 Table 6.68 (tReceiverResponse)",
        "Whoever asks waits about 30 ms; an answer that is slow on the bench comes too late when the port is "
            + "busy, and the device resets.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - send sink Get_Source_Cap
              - pause 22ms
              - advertise
            """,
            "The source answers Get_Source_Cap after 24 ms."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TReceiverResponse,
    ];
}
