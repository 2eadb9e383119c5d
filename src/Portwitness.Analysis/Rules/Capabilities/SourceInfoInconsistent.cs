using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>Source_Info contradicts itself, or the list.</summary>
public sealed class SourceInfoInconsistent : PortRule
{
    private const int Watt = 1000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "source-info-inconsistent",
        Severity = Severity.Violation,
        Title = "Source_Info contradicts itself or the list",
        Clause = "R3.2v1.1 6.4.11, Table 6.51",
        Why = "Source_Info tells a device what the port is designed for, what it can give now, and what it has offered. When "
            + "the three do not fit, the device waits for power that does not come, or does not ask for what is there.",
        Evidence = "Source_Info, the list before it, and that the recorder missed no message in between.",
        Editions = PowerDelivery.Limits.Editions.R31 | PowerDelivery.Limits.Editions.R32,
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 2.22A]
            steps:
              - advertise
              - send source Source_Info 0x80141414
            """,
            "Reported PDP is 20 W; 9 V 2.22 A is 19.98 W, of which the integer part is 19 W."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(PortStatements port, IPlacedHitSink hits)
    {
        SourceInfoStatement? first = null;
        foreach (SourceInfoStatement stated in port.Infos)
        {
            first ??= stated;
            SourceInfoObject info = stated.Info;
            if (info.PresentPdp > info.MaximumPdp)
            {
                Report(hits, stated, Verdict.Fails, "Port Present PDP", $"at most {info.MaximumPdp}", info.PresentPdp);
            }

            if (info.MaximumPdp != first.Info.MaximumPdp)
            {
                Report(hits, stated, Verdict.Fails, "Port Maximum PDP", $"{first.Info.MaximumPdp}, as before", info.MaximumPdp);
            }

            CheckReported(stated, hits);
        }
    }

    private void CheckReported(SourceInfoStatement stated, IPlacedHitSink hits)
    {
        SourceInfoObject info = stated.Info;
        int? spr = Offered(stated.Spr);
        int? epr = Offered(stated.Epr);
        if (IsUnclear(stated.Spr, spr) || IsUnclear(stated.Epr, epr) || (spr ?? epr) is not { } offered)
        {
            return;
        }

        int reported = info.ReportedPdp.Milliwatts;
        if (reported != spr && reported != epr)
        {
            Phrase expected = epr is { } other && other != offered ? Phrase.Of($"{Watts(offered)} or {Watts(other)}") : $"{Watts(offered)}";
            Report(
                hits, stated, stated.NothingMissed ? Verdict.Fails : Verdict.CannotTell, "Port Reported PDP",
                $"{expected}, the integer part of the largest fixed power of the list", info.ReportedPdp);
        }

        // Rounding up makes one watt; what was offered before the power sank may stand for a moment.
        else if (reported > info.PresentPdp.Milliwatts + Watt)
        {
            Report(
                hits, stated, Verdict.CannotTell, "Port Reported PDP", $"at most Port Present PDP, {info.PresentPdp}",
                info.ReportedPdp);
        }
    }

    private static bool IsUnclear(Advertisement? list, int? offered) => list is not null && offered is null;

    // In mW, whole watts; null without a list, or when a fixed supply was not shown in full.
    private static int? Offered(Advertisement? list)
    {
        if (list is null)
        {
            return null;
        }

        foreach (OfferedObject offered in list.Objects)
        {
            bool shown = offered.KindIsKnown && (offered.Kind != PowerObjectKind.Fixed || offered.IsZero
                || (offered.MaximumCurrent() is not null && offered.HighestVoltage() is not null));
            if (!shown)
            {
                return null;
            }
        }

        return PowerFitter.LargestFixedPower(list.Objects.AsSpan()) / Watt * Watt;
    }

    private static Power Watts(int milliwatts) => PowerRules.Watts(milliwatts);

    private void Report(
        IPlacedHitSink hits, SourceInfoStatement stated, Verdict verdict, string field, Phrase expected, Power observed) =>
        hits.Report(
            this,
            new Hit(verdict, $"{field} is {observed}; expected is {expected}.")
            {
                Expected = expected,
                Observed = $"{field} {observed}",
                NextStep = verdict == Verdict.CannotTell
                    ? "Capture Get_Source_Cap and Get_Source_Info right after each other, with a recorder that misses nothing."
                    : null,
            },
            stated.Place);
}
