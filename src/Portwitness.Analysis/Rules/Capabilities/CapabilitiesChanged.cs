using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Headers;

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
        Why = "A source may change its list at any time: for the cable, heat, or other ports. What was offered once was "
            + "offered: the label is held against each list, and what fell back is told with its times.",
        Evidence = "Two Source_Capabilities of one attach with the same ports in use.",
        Example = new ScriptExample(
            """
            source:
              before: [5V 3A, 9V 3A]
              after: [5V 3A, 9V 2A]
            steps:
              - advertise before
              - contract 2 at 3A
              - advertise after
            """,
            "9 V is offered with 3 A, then with 2 A."),
        Category = RuleCategory.Capabilities,
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
                Report(before, list, hits);
            }

            before = list;
        }
    }

    // Flags and limits that the short text of an object leaves out are named.
    private void Report(Advertisement before, Advertisement now, IPlacedHitSink hits)
    {
        (Phrase was, Phrase @is) = (Text(before), Text(now));
        Phrase? fields = was == @is ? ChangedFields.Text(before.Objects, now.Objects) : null;
        hits.Report(
            this,
            new Hit(default, fields is null ? Phrase.Of($"Before: {was}. Now: {@is}.") : $"Offered before and now: {was}. Changed: {fields}.")
            {
                Expected = was,
                Observed = fields is null ? @is : fields,
                IsNote = true,
            },
            PortStatements.PlaceOf(now));
    }

    private static Phrase Text(Advertisement list) => Phrase.Join(", ", list.Objects.Select(static offered => offered.ToPhrase()));
}
