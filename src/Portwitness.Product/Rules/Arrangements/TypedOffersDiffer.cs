using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>What was typed or quoted of a port, or what a kernel shows of it, is not what better evidence of it shows.</summary>
public sealed class TypedOffersDiffer : ArrangementRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "typed-offers-differ",
        Severity = Severity.Caution,
        Title = "Typed, quoted or shown offers differ from better evidence",
        Clause = "common practice, no source",
        Why = "One of two readings of the same port is wrong, or was taken with another cable, at another temperature or of another sample. The "
            + "better one counts: what was recorded before what a kernel shows, that before what was quoted, and that before what was typed. "
            + "Until the difference is explained, what was only typed of other ports is worth less, too.",
        Evidence = "Two lists of the same port with the same ports in use, one of them better evidence, each with all its objects read. What a kernel "
            + "or a quotation may have left out is no difference.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "9 V 3 A were captured, and 9 V 2.22 A typed.", "offers:\n  - {port: C, list: [5V 3A, 9V 2.22A]}"),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (CaptureAnalysis reading in product.Captures)
        {
            foreach (Advertisement list in SourceLists(reading).Where(static list => list.Evidence != ListEvidence.Recorded && IsWhole(list)))
            {
                Check(product, reading, list, hits);
            }
        }
    }

    private void Check(ProductArrangements product, CaptureAnalysis reading, Advertisement list, IProductHitSink hits)
    {
        string set = OfferGroup.SetOf(InUse(list, reading));
        foreach (CaptureAnalysis other in product.Captures.Where(one => one != reading && PortNames.Same(one.Port, reading.Port)))
        {
            Advertisement[] better =
            [
                .. SourceLists(other).Where(one => one.Evidence < list.Evidence && one.Message == list.Message
                    && OfferGroup.SetOf(InUse(one, other)) == set && IsWhole(one)),
            ];
            if (better.Length == 0 || better.Any(one => Difference(list, one) is null))
            {
                continue;
            }

            (Phrase of, Phrase counts) = Difference(list, better[^1])!.Value;
            hits.Report(
                this,
                new Hit(
                    Verdict.CannotTell,
                    $"{Word(list)}: {of}. {Word(better[^1])}: {counts} ({other.File}, message {better[^1].MessageIndex}), which counts.")
                {
                    Expected = counts, Observed = of,
                    NextStep = list.Evidence == ListEvidence.Typed
                        ? "Read the offers once more with the same cable, sample and ports in use, or capture them once more."
                        : "Read the port once more with the same cable, sample and ports in use, or capture it once more.",
                },
                new ProductPlace(reading.Port, list.InUse) { File = reading.File, MessageIndex = list.MessageIndex });
        }
    }

    private static Phrase Word(Advertisement list) => list.Evidence switch
    {
        ListEvidence.Typed => "Typed",
        ListEvidence.Quoted => "Quoted",
        ListEvidence.Shown => "Shown",
        _ => "Captured",
    };

    private static IEnumerable<Advertisement> SourceLists(CaptureAnalysis capture) =>
        capture.Advertisements.Where(static list => list.Message.IsSourceList && list.IsOwn);

    // A capture that says nothing else is of its port alone.
    private static ImmutableArray<string> InUse(Advertisement list, CaptureAnalysis capture) => list.InUse.IsEmpty ? [capture.Port] : list.InUse;

    private static bool IsWhole(Advertisement list) =>
        !list.Objects.IsEmpty && list.Objects.All(static offered => offered.KindIsKnown && Amounts(offered) is not null);

    // The first object of either that the other does not have.
    private static (Phrase Typed, Phrase Captured)? Difference(Advertisement typed, Advertisement captured)
    {
        int slack = typed.CurrentRoundingMilliamperes / 2;
        foreach (OfferedObject offered in typed.Objects.Where(static one => !one.IsZero))
        {
            if (!captured.Objects.Any(other => Same(offered, other, slack)))
            {
                return ($"{offered}", Nearest(offered, captured));
            }
        }

        // What a person did not type is asked about; what an excerpt does not have was cut.
        bool mayGoOn = typed.Evidence != ListEvidence.Typed && (typed.MayBeCut || !typed.CountIsKnown);
        foreach (OfferedObject offered in captured.Objects.Where(one => !mayGoOn && !one.IsZero))
        {
            if (!typed.Objects.Any(other => Same(offered, other, slack)))
            {
                return (Nearest(offered, typed), $"{offered}");
            }
        }

        return null;
    }

    private static Phrase Nearest(OfferedObject offered, Advertisement list)
    {
        foreach (OfferedObject other in list.Objects)
        {
            if (other.Kind == offered.Kind && other.HighestVoltage() == offered.HighestVoltage())
            {
                return $"{other}";
            }
        }

        return "no such object";
    }

    private static bool Same(OfferedObject left, OfferedObject right, int slack) => left.Kind == right.Kind
        && Amounts(left) is { } first && Amounts(right) is { } second
        && (first.Low, first.High) == (second.Low, second.High) && Math.Abs(first.Amount - second.Amount) <= slack;

    // Voltages in mV; current in mA, or power in mW. Null when one was not shown.
    private static (int Low, int High, int Amount)? Amounts(OfferedObject offered)
    {
        if (offered.IsZero)
        {
            return (0, 0, 0);
        }

        int? amount = offered.Kind == PowerObjectKind.EprAvs ? offered.AsSource().AsEprAvs().Pdp.Milliwatts
            : offered.Kind == PowerObjectKind.Battery ? offered.AsSource().AsBattery().MaximumPower.Milliwatts
            : offered.MaximumCurrent()?.Milliamperes;
        return offered.LowestVoltage() is { } low && offered.HighestVoltage() is { } high && amount is { } known
            ? (low.Millivolts, high.Millivolts, known)
            : null;
    }
}
