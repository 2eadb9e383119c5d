using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The source offered something else than before, with the same ports in use.</summary>
public sealed class CapabilitiesChanged : PortRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "capabilities-changed",
        Severity = Severity.Note,
        Title = "The source changed what it offers",
        Clause = "R3.2v1.1 6.4.1",
        Why = "A source may change its list at any time: for the cable, heat, or other ports. The label is held against the "
            + "last list, so it is worth knowing that there was another one.",
        Evidence = "Two Source_Capabilities of one attach with the same ports in use.",
        Example = new(
            """
            source:
              before: [5V 3A, 9V 3A]
              after: [5V 3A, 9V 2A]
            steps:
              - advertise before
              - contract 2 at 3A
              - advertise after
            """,
            "9 V is offered with 3 A, then with 2 A.",
            IsScript: true),
        Category = "capabilities",
    };

    /// <inheritdoc/>
    public override void Check(PortStatements port, IPlacedHitSink hits)
    {
        Advertisement? before = null;
        foreach (Advertisement list in port.Lists.Where(list => list.Message == MessageKind.SourceCapabilities))
        {
            if (before is not null && before.Attach == list.Attach && before.InUse.AsSpan().SequenceEqual(list.InUse.AsSpan())
                && !list.Objects.AsSpan().SequenceEqual(before.Objects.AsSpan()))
            {
                (string was, string now) = (Text(before), Text(list));
                if (was == now)
                {
                    (was, now) = (Fields(before, list, before), Fields(before, list, list));
                }

                hits.Report(
                    this,
                    new Hit(default, $"Before: {was}. Now: {now}.") { Expected = was, Observed = now, IsNote = true },
                    PortStatements.PlaceOf(list));
            }

            before = list;
        }
    }

    // Flags and peak currents are not part of an object's text: where that reads the same, the fields that differ are told.
    private static string Fields(Advertisement before, Advertisement now, Advertisement of)
    {
        List<string> fields = [];
        for (int index = 0; index < Math.Min(before.Objects.Length, now.Objects.Length); index++)
        {
            (OfferedObject was, OfferedObject @is) = (before.Objects[index], now.Objects[index]);
            fields.AddRange(was.AsSource().Layout.Fields
                .Where(field => field.Get(was.Raw) != field.Get(@is.Raw) || was.Knows(field) != @is.Knows(field))
                .Select(field => $"{field.Name} of object {was.Position}: "
                    + (of.Objects[index].Knows(field) ? field.Describe(of.Objects[index].Raw) : "not shown")));
        }

        return string.Join(", ", fields);
    }

    private static string Text(Advertisement list) => string.Join(", ", list.Objects.Select(offered => offered.ToText()));
}
