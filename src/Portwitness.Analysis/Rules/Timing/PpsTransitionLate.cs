using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>Steps within one PPS object are held to the times of small and large steps.</summary>
internal sealed class PpsTransitionLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "pps-transition-late",
        "A programmable supply takes too long for a step",
        "R3.2v1.1 Table 7.23 (tPpsSrcTransSmall, tPpsSrcTransLarge)",
        "Devices charge their battery directly from PPS and step every few hundred milliseconds; a slow step "
            + "makes them fall back to slow charging.",
        new ScriptExample(
            """
            source: [5V 3A, PPS 5-11V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 9V 3A
              - request 2 at 9.2V 3A
              - accept
              - ready after 120ms
            """,
            "120 ms for a step of 200 mV."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TPpsSrcTransSmall, TimingLimits.TPpsSrcTransLarge,
    ];
}
