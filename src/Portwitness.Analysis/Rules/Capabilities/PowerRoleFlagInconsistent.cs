using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A port's role flags differ between its source list and its sink list.</summary>
public sealed class PowerRoleFlagInconsistent : PortRule
{
    // The same bits in both lists (Tables 6.9 and 6.17).
    private static readonly BitField[] Flags = [FixedSourceSupply.DualRolePowerField, FixedSourceSupply.DualRoleDataField];

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "power-role-flag-inconsistent",
        Severity = Severity.Violation,
        Title = "The port's source and sink lists disagree on its roles",
        Clause = "R3.2v1.1 6.4.1.4",
        Why = "Dual-Role Power and Dual-Role Data are the same in both lists of a port. A device that reads one of them offers "
            + "a role swap that the other rules out, or never offers it.",
        Evidence = "Source_Capabilities and Sink_Capabilities of the same port, both with all bits shown.",
        Example = new ScriptExample(
            """
            source: [5V 3A dual-role-power dual-role-data, 9V 3A]
            steps:
              - advertise
              - send source Sink_Capabilities 0x2001912C
            """,
            "The source list has Dual-Role Data, the sink list has not."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(PortStatements port, IPlacedHitSink hits)
    {
        foreach (Advertisement sink in port.Lists.Where(list => !list.Message.IsSourceList))
        {
            Advertisement? source = port.Lists.LastOrDefault(
                list => list.Message.IsSourceList && list.Attach == sink.Attach);
            if (First(sink) is not { } asSink || First(source) is not { } asSource)
            {
                continue;
            }

            foreach (BitField flag in Flags)
            {
                if (asSink.Knows(flag) && asSource.Knows(flag) && flag.IsSet(asSink.Raw) != flag.IsSet(asSource.Raw))
                {
                    hits.Report(
                        this,
                        new Hit(Verdict.Fails, $"{flag.Name}: {Said(flag, asSource)} as a source, {Said(flag, asSink)} as a sink.")
                        {
                            Position = 1,
                            Expected = $"{flag.Name} as in {source!.Message}: {Said(flag, asSource)}",
                            Observed = Said(flag, asSink),
                        },
                        PortStatements.PlaceOf(sink));
                }
            }
        }
    }

    private static Phrase Said(BitField flag, OfferedObject offered) => flag.IsSet(offered.Raw) ? "yes" : "no";

    private static OfferedObject? First(Advertisement? list) =>
        list is { Objects: [var first, ..] } && first.Is(PowerObjectKind.Fixed) ? first : null;
}
