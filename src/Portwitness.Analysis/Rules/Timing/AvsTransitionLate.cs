using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>Steps within one AVS object are held to the times of small and large steps.</summary>
internal sealed class AvsTransitionLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "avs-transition-late",
        "An adjustable supply takes too long for a step",
        "R3.2v1.1 Table 7.23 (tAvsSrcTransSmall, tAvsSrcTransLarge)",
        "A device that follows its need with AVS waits for each step; it resets a supply that does not come to an "
            + "end.",
        new ScriptExample(
            """
            edition: R3.2
            cable: 5A captive
            source: [5V 3A, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A]
            steps:
              - attach
              - advertise
              - contract 5 at 12V 3A
              - request 5 at 12.5V 3A
              - accept
              - ready after 200ms
            """,
            "200 ms for a step of 500 mV."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TAvsSrcTransSmall, TimingLimits.TAvsSrcTransLarge,
    ];
}
