using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>A retry is held to tReceive and tRetry.</summary>
internal sealed class RetryMistimed : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "retry-mistimed",
        "A message is sent again too early or too late",
        "R3.2v1.1 Table 6.68 (tReceive, tRetry)",
        "Too early, and the retry runs into the GoodCRC that was on its way; too late, and the partner has given "
            + "up.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise with retry-gap 300us
              - request 2 at 3A
              - accept
              - ready
            """,
            "Source_Capabilities is sent again after 300 us."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TReceive,
    ];
}
