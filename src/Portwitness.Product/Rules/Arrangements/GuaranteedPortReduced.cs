using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Comparison;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>A port that says it is guaranteed is offered less beside others.</summary>
public sealed class GuaranteedPortReduced : ArrangementRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "guaranteed-port-reduced",
        Severity = Severity.Violation,
        Title = "A guaranteed port is reduced beside others",
        Clause = "R3.2v1.1 6.4.11",
        Why = "A guaranteed port gives its maximum at any time, and devices rely on it: they need not expect to be offered less. A port whose "
            + "power depends on its neighbours is a managed one.",
        Evidence = "Source_Info of the port, and its lists alone and beside others over the same kind of cable.",
        Editions = Editions.R31 | Editions.R32,
        Example = new ScriptExample(
            """
            port: C1
            in_use: [C1]
            source:
              alone: [5V 3A, 9V 3A, 15V 3A]
              shared: [5V 3A, 9V 2.22A]
            steps:
              - attach
              - advertise alone
              - contract 3 at 3A
              - send sink Get_Source_Info
              - send source Source_Info 0x802D2D2D
              - attach C2
              - advertise shared
              - contract 2 at 2.22A
            """,
            "The port calls itself guaranteed with 45 W and is offered 20 W beside C2."),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (IGrouping<string, ArrangementRow> port in product.Rows.GroupBy(row => PortNames.Key(row.Port)))
        {
            SourceInfoStatement? info = product.Captures.Where(capture => PortNames.Key(capture.Port) == port.Key)
                .SelectMany(capture => capture.Infos).FirstOrDefault(info => info.Info.Guaranteed && info.Info.MaximumPdp.Milliwatts > 0);
            if (info is null)
            {
                continue;
            }

            int maximum = info.Info.MaximumPdp.Milliwatts;
            ArrangementRow? least = port.Where(row => row.Offer.InUse.Length > 1
                && maximum - row.Milliwatts > SharingJudgement.RoundingMilliwatts).MinBy(row => row.Milliwatts);
            if (least is not null)
            {
                Report(least, maximum, hits);
            }
            else
            {
                CheckPrinted(product.Label, port.Key, maximum, hits);
            }
        }
    }

    // The same cable carried the maximum when the port was alone; otherwise it may be the cable.
    private void Report(ArrangementRow row, int maximum, IProductHitSink hits)
    {
        bool aloneHadIt = row.AloneMilliwatts >= maximum - SharingJudgement.RoundingMilliwatts && row.Alone!.Cable == row.Offer.Cable;
        bool settled = aloneHadIt && !row.Offer.HidesObjects;
        hits.Report(
            this,
            new Hit(
                settled ? Verdict.Fails : Verdict.CannotTell,
                $"{row.Port} calls itself guaranteed with {PowerRules.Watts(maximum)}; with {string.Join(", then ", row.Offer.InUse)} it is offered {PowerRules.Watts(row.Milliwatts)}.")
            {
                Expected = $"{PowerRules.Watts(maximum)}", Observed = $"{PowerRules.Watts(row.Milliwatts)}",
                NextStep = settled ? null : Phrase.Of($"Capture {row.Port} alone and beside others over one cable: the cable, or heat, may be the reason."),
            },
            ProductPlace.Of(row.Offer));
    }

    private void CheckPrinted(Label? label, string key, int maximum, IProductHitSink hits)
    {
        foreach (PrintedCombination printed in label?.Combinations ?? [])
        {
            if (printed.Split.FirstOrDefault(share => PortNames.Key(share.Port) == key) is { Power: { } power } share
                && maximum - power.Milliwatts > Math.Max(SharingJudgement.RoundingMilliwatts, PowerClaims.Tolerance(power)))
            {
                hits.Report(
                    this,
                    new Hit(Verdict.CannotTell, $"{share.Port} calls itself guaranteed with {PowerRules.Watts(maximum)}; \"{printed.Text}\" prints {power} for it.")
                    {
                        LabelLine = printed.At.Line, Expected = $"{PowerRules.Watts(maximum)} in every combination", Observed = $"{power} printed",
                        NextStep = NextSteps.CaptureInOrder(printed.Ports),
                    },
                    new ProductPlace(share.Port, printed.Ports));
                return;
            }
        }
    }
}
