using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>The EPR Capable bit contradicts what the port offers or declares.</summary>
public sealed class EprFlagInconsistent : PortRule
{
    private const int OptionalUpTo = 15_000;
    private const int NotConfirmedAbove = 27_000;
    private const int NotConfirmedUpTo = 45_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-flag-inconsistent",
        Severity = Severity.Violation,
        Title = "EPR Capable contradicts what the port offers",
        Clause = "R3.2v1.1 6.4.1.2.1, Tables 6.9, 6.54 and 10.3",
        Why = "The bit stands in every list of a source that is designed for EPR mode, and in no other. Without it a device never asks "
            + "for more than 100 W; with it, on a smaller source, it asks in vain.",
        Evidence = "Lists with the bit shown, and an EPR list with EPR objects, a declared rating, or an SPR list without 20 V: for the "
            + "latter also whether the port can share its power.",
        Editions = Editions.R31 | Editions.R32,
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - advertise
              - get-epr-source-cap
            """,
            "28 V is offered by a source that does not set EPR Capable."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(PortStatements port, IPlacedHitSink hits)
    {
        bool offersEpr = port.Lists.Any(list => list.Message == MessageKind.EPRSourceCapabilities
            && EprPowerFitter.HasEprObjects(list.Objects.AsSpan()));
        (bool Epr, Phrase Statement)? declared = Declared(port);
        foreach (Advertisement list in port.Lists)
        {
            if (!list.ShowsRevision3() || list.FirstFixed() is not { } first || !first.Knows(FixedSourceSupply.EprCapableField)
                || !list.Message.IsSourceList)
            {
                continue;
            }

            bool flag = first.AsSource().AsFixed().EprCapable;
            if (!flag && offersEpr)
            {
                Report(
                    hits, list, Verdict.Fails, "The port offers EPR objects, but does not say that it is capable of EPR.", "set",
                    "clear");
            }
            else if (!offersEpr && declared is { } stated)
            {
                if (flag != stated.Epr)
                {
                    Report(
                        hits, list, Verdict.Fails, $"{stated.Statement}, which is {(stated.Epr ? "an" : "no")} EPR source.",
                        stated.Epr ? Phrase.Of($"set above {Electrical.SprMaximumPdp}") : $"clear up to {Electrical.SprMaximumPdp}",
                        flag ? "set" : "clear");
                }
            }
            else if (flag && !offersEpr && SettleWithout20V(list, port.EvidenceFor(list)) is { } verdict)
            {
                Report(
                    hits, list, verdict, "The port says that it is made for more than 100 W, but its list has no fixed 20 V.",
                    "clear, or fixed 20 V in the list", "set");
            }
        }
    }

    // Source_Info states the port's maximum, Source_Capabilities_Extended an EPR rating that is 0 for an SPR source (Table 6.54).
    private static (bool Epr, Phrase Statement)? Declared(PortStatements port)
    {
        if (port.Infos.FirstOrDefault(stated => stated.Info.MaximumPdp.Milliwatts > 0) is { Info.MaximumPdp: var maximum })
        {
            return (maximum > Electrical.SprMaximumPdp, $"The port declares {maximum}");
        }

        return port.Ratings.FirstOrDefault(stated => stated.Epr is not null) switch
        {
            { Epr: { Milliwatts: > 0 } epr } => (true, $"Source_Capabilities_Extended states an EPR rating of {epr}"),
            { Spr: { Milliwatts: > 0 } spr } => (false, $"Source_Capabilities_Extended states {spr}, and no EPR rating"),
            _ => null,
        };
    }

    // A source above 100 W has 20 V in its lists. With a present PDP of up to 15 W it may leave it out (Table 10.3), and before the
    // first contract a managed port may leave out more (6.4.11). How the cells of Table 10.3 for 27 W to 45 W are merged is not
    // confirmed.
    private static Verdict? SettleWithout20V(Advertisement list, SourceEvidence evidence)
    {
        foreach (OfferedObject offered in list.Objects)
        {
            if (!offered.KindIsKnown || (offered.Kind == PowerObjectKind.Fixed
                && (offered.HighestVoltage() is not { } voltage || voltage >= Electrical.SprMaximumFixed)))
            {
                return null;
            }
        }

        int offers = PowerFitter.LargestFixedPower(list.Objects.AsSpan());
        if (evidence.SettleAmong(Editions.WithEpr, Editions.R32) is not Verdict.Fails)
        {
            return offers > OptionalUpTo ? Verdict.CannotTell : null;
        }

        if (evidence.Sharing == PowerSharing.None)
        {
            return offers > OptionalUpTo ? Verdict.Fails : Verdict.CannotTell;
        }

        return offers <= OptionalUpTo ? null
            : list.AfterContract && offers is <= NotConfirmedAbove or > NotConfirmedUpTo ? Verdict.Fails
            : Verdict.CannotTell;
    }

    private void Report(
        IPlacedHitSink hits, Advertisement list, Verdict verdict, Phrase detail, Phrase expected, Phrase observed) => hits.Report(
        this,
        new Hit(verdict, detail)
        {
            Position = 1,
            Expected = $"EPR Capable {expected}",
            Observed = $"EPR Capable {observed} in {list.Message}",
            NextStep = verdict == Verdict.CannotTell
                ? "Capture Source_Info or EPR_Source_Capabilities, and state whether the product has one port."
                : null,
        },
        PortStatements.PlaceOf(list));
}
