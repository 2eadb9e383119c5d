using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>What a port is made for changes within one attach.</summary>
/// <remarks>
/// R3.2v1.1 calls EPR Capable and the port's maximum PDP static. That Dual-Role Power, Dual-Role Data and Unchunked Extended Messages
/// Supported are static as well is from memory: these can be cautioned only. Unconstrained Power and USB Suspend may change.
/// </remarks>
public sealed class StaticFactChanged : PortRule
{
    private static readonly (BitField Field, bool Confirmed)[] Flags =
    [
        (FixedSourceSupply.EprCapableField, true),
        (FixedSourceSupply.DualRolePowerField, false),
        (FixedSourceSupply.DualRoleDataField, false),
        (FixedSourceSupply.UnchunkedField, false),
    ];

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "static-fact-changed",
        Severity = Severity.Violation,
        Title = "What the port is made for changed",
        Clause = "R3.2v1.1 6.4.1.2.1, 6.4.11, Table 6.54",
        Why = "What a port is designed for does not change while a device is attached: a device reads it once. When it changes, the device "
            + "asks for EPR that is refused, never asks for it, or shows two ratings.",
        Evidence = "Two lists of one attach, or two statements of the rating, and the edition (R3.1 was not read). Of other flags "
            + "than EPR Capable only memory says that they are static.",
        Example = new ScriptExample(
            """
            source:
              before: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A]
              after: [5V 3A, 9V 3A, 15V 3A, 20V 5A]
            steps:
              - advertise before
              - contract 2 at 3A
              - advertise after
            """,
            "EPR Capable is set in the first list and clear in the next."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(PortStatements port, IPlacedHitSink hits)
    {
        foreach ((BitField field, bool confirmed) in Flags)
        {
            CheckFlag(port, field, confirmed, hits);
        }

        RatingStatement? first = port.Ratings.FirstOrDefault(rating => rating.Epr is not null);
        foreach (RatingStatement rating in port.Ratings.Where(rating => rating.Epr is not null))
        {
            Power before = Larger(first!);
            Power now = Larger(rating);
            if (before != now && before.Milliwatts > 0 && now.Milliwatts > 0)
            {
                hits.Report(
                    this,
                    new Hit(Verdict.Fails, $"Source_Capabilities_Extended stated {before} before, and states {now} now.")
                    {
                        Expected = $"{before}, as before", Observed = $"{now}",
                    },
                    rating.Place);
            }
        }
    }

    // Each flag is held against the first list of its attach, once.
    private void CheckFlag(PortStatements port, BitField field, bool confirmed, IPlacedHitSink hits)
    {
        Advertisement? before = null;
        foreach (Advertisement list in port.Lists.Where(list => list.Message.IsSourceList && list.ShowsRevision3()))
        {
            if (list.FirstFixed() is not { } first || !first.Knows(field))
            {
                continue;
            }

            if (before?.Attach != list.Attach)
            {
                before = list;
            }
            else if (field.IsSet(first.Raw) != field.IsSet(before.FirstFixed()!.Value.Raw))
            {
                Verdict verdict = confirmed && port.EvidenceFor(list).SettleAmong(Editions.WithEpr, Editions.R32) == Verdict.Fails
                    ? Verdict.Fails
                    : Verdict.CannotTell;
                Phrase was = field.IsSet(first.Raw) ? "clear" : "set";
                Phrase now = field.IsSet(first.Raw) ? "set" : "clear";
                hits.Report(
                    this,
                    new Hit(verdict, $"{field.Name} was {was} in message {before.MessageIndex}, and is {now} here.")
                    {
                        Position = 1,
                        Expected = $"{field.Name} {was}, as before",
                        Observed = $"{field.Name} {now}",
                        NextStep = verdict == Verdict.Fails ? null
                            : confirmed ? SourceEvidence.EditionNextStep
                            : "Find out whether the port was set up anew in between, for example by its host.",
                    },
                    PortStatements.PlaceOf(list));
                before = list;
            }
        }
    }

    private static Power Larger(RatingStatement rating) => rating.Epr is { } epr && epr > rating.Spr ? epr : rating.Spr;
}
