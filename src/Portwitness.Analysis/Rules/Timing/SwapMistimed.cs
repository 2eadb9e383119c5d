using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>Swaps are held to their times; while power roles change, headers do not tell who speaks.</summary>
internal sealed class SwapMistimed : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "swap-mistimed",
        "A swap of roles does not keep its times",
        "R3.2v1.1 Table 6.68 (tDRSwapWait and its like, tPSSourceOff, tPSSourceOn, tSwapSourceStart)",
        "A power pack and a laptop that swap power roles leave VBUS to each other for less than a second; whoever "
            + "is late is taken for gone.",
        new ScriptExample(
            """
            source: [5V 3A dual-role-data, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - send source DR_Swap
              - send sink Wait
              - send source DR_Swap
              - send sink Reject
            """,
            "The source asks for DR_Swap again 2 ms after Wait."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TDRSwapWait, TimingLimits.TPRSwapWait, TimingLimits.TVCONNSwapWait,
        TimingLimits.TEnterUSBWait, TimingLimits.TPSSourceOffSpr, TimingLimits.TPSSourceOffEpr, TimingLimits.TPSSourceOnSpr, TimingLimits.TSwapSourceStart,
    ];
}
