using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;
using Portwitness.Product;
using Portwitness.Product.Arrangements;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>What ports of a product do together.</summary>
internal static class ArrangementTranslation
{
    public static void AddArrangements(this Wire.ProductReport report, ProductAnalysis analysis)
    {
        ProductArrangements together = analysis.Arrangements;
        report.Sharing = together.Sharing?.ToContract(together.Combinations);
        report.Arrangements.AddRange(together.Rows.Select(ToContract));
        report.NeighbourChanges.AddRange(together.Transitions.Select(ToContract));
    }

    private static Wire.Sharing ToContract(this SharingPolicy policy, CombinationCount? combinations)
    {
        Wire.Sharing translated = new()
        {
            Policy = policy.Kind switch
            {
                SharingKind.NoSharing => "no sharing",
                SharingKind.FixedSplit => "fixed split",
                SharingKind.EqualSplit => "equal split",
                SharingKind.FirstAttachedFirst => "first attached first",
                SharingKind.LastAttachedFirst => "last attached first",
                SharingKind.ByAttachOrder => "by attach order",
                SharingKind.FiveVoltPool => "5 V pool",
                SharingKind.Mixed => "mixed",
                _ => "unknown",
            },
            Sentence = PhraseText.Of(policy.Sentence),
            Evidence = PhraseText.Of(policy.Evidence),
            Verdict = ((Verdict?)policy.Verdict).ToContract(),
            NextStep = PhraseText.Of(policy.NextStep),
        };
        if (combinations is not null)
        {
            translated.CombinationsPrinted = combinations.Printed;
            translated.CombinationsCaptured = combinations.Captured;
            translated.CombinationsHold = combinations.Hold;
        }

        return translated;
    }

    private static Wire.PortInArrangement ToContract(ArrangementRow row)
    {
        Wire.PortInArrangement translated = new()
        {
            Port = row.Port,
            AttachOrderKnown = row.Offer.OrderKnown,
            File = row.Offer.File,
            MessageIndex = row.Offer.List.MessageIndex,
            OfferedMw = row.Milliwatts,
            Contract = row.Contract is { } contract ? contract.ToContract() : null,
        };
        translated.InUse.AddRange(row.Offer.InUse);
        translated.Changes.AddRange(row.Changes.Select(change => new Wire.OfferChange
        {
            Kind = change.Kind switch
            {
                OfferChangeKind.Lost => "lost",
                OfferChangeKind.Reduced => "reduced",
                OfferChangeKind.Raised => "raised",
                _ => "added",
            },
            Alone = change.Alone,
            Now = change.Now,
        }));
        if (row.AloneMilliwatts is { } alone)
        {
            translated.AloneMw = alone;
        }

        if (row.Offer.MostPowerMilliwatts is var most && most > row.Milliwatts)
        {
            translated.OfferedBeforeMw = most;
            translated.OfferedBeforeForUs = row.Offer.Earlier.Where(one => one.LargestPowerMilliwatts == most).Sum(static one => one.ForUs);
        }

        if (row.Measured is { } measured)
        {
            translated.MeasuredMw = measured.Milliwatts;
        }

        return translated;
    }

    private static Wire.NeighbourChange ToContract(Transition change)
    {
        Wire.NeighbourChange translated = new()
        {
            Port = change.Port,
            File = change.File,
            Neighbour = change.Neighbour,
            Event = change.Attached ? "attach" : "detach",
            AtUs = change.AtUs,
            UncertaintyUs = change.UncertaintyUs,
            WatchedUs = change.WatchedUs,
            Interruption = change.Interruption?.ToContract(),
            VbusMeasured = change.MeasuresVbus,
        };
        translated.InUse.AddRange(change.InUse);
        if (change.BeforeMilliwatts is { } before)
        {
            translated.OfferedBeforeMw = before;
        }

        if (change.AfterMilliwatts is { } after)
        {
            translated.OfferedAfterMw = after;
        }

        if (change.ListUs is { } list)
        {
            translated.ListUs = list;
        }

        if (change.ReadyUs is { } ready)
        {
            translated.ReadyUs = ready;
        }

        if (change.HardResetUs is { } reset)
        {
            translated.HardResetUs = reset;
        }

        if (change.VbusOffUs is { } off)
        {
            translated.VbusOffUs = off;
        }

        if (change.VbusOnUs is { } on)
        {
            translated.VbusOnUs = on;
        }

        return translated;
    }

    private static Wire.Interruption ToContract(this Interruption interruption)
    {
        Wire.Interruption translated = new()
        {
            Contract = PhraseText.Of(interruption.Contract?.Text),
            StartUs = interruption.StartUs,
            LastBelowUs = interruption.LastBelowUs,
            DeepestMv = interruption.DeepestMillivolts,
            Overloaded = interruption.Overloaded,
        };
        if (interruption.LastGoodUs is { } good)
        {
            translated.LastGoodUs = good;
        }

        if (interruption.EndUs is { } end)
        {
            translated.EndUs = end;
        }

        if (interruption.HardResetUs is { } reset)
        {
            translated.HardResetUs = reset;
        }

        return translated;
    }
}
