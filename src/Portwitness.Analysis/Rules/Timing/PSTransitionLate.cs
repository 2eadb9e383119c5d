using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>PS_RDY is held to the sink's tPSTransition, where no edition since R3.1 says more.</summary>
internal sealed class PSTransitionLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "ps-transition-late",
        "PS_RDY comes when the sink must have given up",
        "R3.2v1.1 Table 6.68 (tPSTransition)",
        "A sink that waits for PS_RDY longer than half a second sends a Hard Reset. Editions before R3.1 limit "
            + "the source by this alone.",
        new ScriptExample(
            """
            edition: R3.0
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - request 2 at 3A
              - accept
              - ready after 700ms
            """,
            "PS_RDY after 700 ms."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TPSTransitionSpr, TimingLimits.TPSTransitionEpr,
    ];
}
