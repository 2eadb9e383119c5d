using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The first seven positions of an EPR list are not the SPR list.</summary>
/// <remarks>
/// Currents at 20 V may differ: in EPR mode a source gives 100 W there, in SPR mode it may give less (10.2.3.3). Other
/// currents may have changed between the two lists.
/// </remarks>
public sealed class EprPositionsDifferFromSpr : PortRule
{
    private const int Most20VRange = 21_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-positions-differ-from-spr",
        Severity = Severity.Violation,
        Title = "An EPR list does not begin with the SPR list",
        Clause = "R3.2v1.1 6.5.15.1",
        Why = "A device that has chosen an object from the SPR list finds it at the same position in EPR mode. When the lists "
            + "differ, it asks for one voltage and gets another.",
        Evidence = "Both lists of one attach, all bits shown. What a port that shares power offers may change between them.",
        Editions = Editions.R31 | Editions.R32,
        Example = new ScriptExample(
            """
            source:
              spr: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A]
              epr: [5V 3A epr, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - advertise spr
              - get-epr-source-cap epr
            """,
            "Position 2 is 9 V in the SPR list and 15 V in the EPR list."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(PortStatements port, IPlacedHitSink hits)
    {
        for (int index = 0; index < port.Lists.Count; index++)
        {
            Advertisement epr = port.Lists[index];
            if (epr.Message != MessageKind.EPRSourceCapabilities || Before(port.Lists, index) is not { } spr
                || (After(port.Lists, index) is { } later && FirstDifference(epr, later) is null)
                || FirstDifference(epr, spr) is not { } position)
            {
                continue;
            }

            OfferedObject inEpr = At(epr, position);
            OfferedObject inSpr = At(spr, position);
            bool onlyAmount = inEpr.VoltagePhrase() == inSpr.VoltagePhrase();
            bool mayHaveChanged = onlyAmount || port.EvidenceFor(epr).Sharing != PowerSharing.None;
            hits.Report(
                this,
                new Hit(
                    mayHaveChanged ? Verdict.CannotTell : Verdict.Fails,
                    $"Position {position} is {inEpr} in {epr.Message} and {inSpr} in {spr.Message}.")
                {
                    Position = position,
                    Expected = inSpr.ToPhrase(),
                    Observed = inEpr.ToPhrase(),
                    NextStep = mayHaveChanged ? "Capture Source_Capabilities right before and after EPR_Source_Capabilities." : null,
                },
                PortStatements.PlaceOf(epr));
        }
    }

    private static Advertisement? Before(IReadOnlyList<Advertisement> lists, int index)
    {
        Advertisement epr = lists[index];
        for (int earlier = index - 1; earlier >= 0; earlier--)
        {
            if (IsSprOf(epr, lists[earlier]))
            {
                return lists[earlier];
            }
        }

        return null;
    }

    private static Advertisement? After(IReadOnlyList<Advertisement> lists, int index)
    {
        Advertisement epr = lists[index];
        return lists.Skip(index + 1).FirstOrDefault(list => IsSprOf(epr, list));
    }

    private static bool IsSprOf(Advertisement epr, Advertisement list) => list.Message == MessageKind.SourceCapabilities
        && list.Attach == epr.Attach && list.InUse.AsSpan().SequenceEqual(epr.InUse.AsSpan());

    private static int? FirstDifference(Advertisement epr, Advertisement spr)
    {
        for (int position = 1; position <= MessageLimits.MaxSprObjects; position++)
        {
            OfferedObject left = At(epr, position);
            OfferedObject right = At(spr, position);
            bool shown = left.Known == uint.MaxValue && right.Known == uint.MaxValue;
            if (shown && (left.Raw & ~MayDiffer(left)) != (right.Raw & ~MayDiffer(left)))
            {
                return position;
            }
        }

        return null;
    }

    // What is behind the end of an SPR list is padding; an EPR list that ends early was cut.
    private static OfferedObject At(Advertisement list, int position) => position <= list.Objects.Length
        ? list.Objects[position - 1]
        : new OfferedObject(position, 0, list.Message == MessageKind.SourceCapabilities ? uint.MaxValue : 0);

    private static uint MayDiffer(OfferedObject offered) => offered.Kind switch
    {
        PowerObjectKind.Fixed when offered.HighestVoltage() == Electrical.SprMaximumFixed =>
            FixedSourceSupply.MaximumCurrentField.Mask,
        PowerObjectKind.SprAvs => SprAvsSourceSupply.Current20Field.Mask,
        PowerObjectKind.Pps when offered.HighestVoltage()?.Millivolts == Most20VRange => PpsSourceSupply.CurrentField.Mask,
        _ => 0,
    };
}
