using System.Collections.Immutable;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>A GoodCRC is held to tTransmit when it comes.</summary>
internal sealed class GoodCrcLate : TimingRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = Describe(
        "goodcrc-late",
        "A GoodCRC comes too late",
        "R3.2v1.1 Table 6.68 (tTransmit)",
        "A sender that hears no GoodCRC in time sends again; with a port that is always late, every message goes "
            + "out three times and some are lost.",
        new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - request 2 at 3A with late-goodcrc 700us
              - accept
              - ready
            """,
            "The source acknowledges the request after 700 us."));

    /// <inheritdoc/>
    public override ImmutableArray<string> Parameters { get; } =
    [
        TimingLimits.TTransmit,
    ];
}
