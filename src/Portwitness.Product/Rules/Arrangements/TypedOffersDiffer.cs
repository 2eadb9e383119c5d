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

/// <summary>What was typed of a port is not what a capture of it shows.</summary>
public sealed class TypedOffersDiffer : ArrangementRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "typed-offers-differ",
        Severity = Severity.Caution,
        Title = "Typed offers differ from what was captured",
        Clause = "common practice, no source",
        Why = "One of two readings of the same port is wrong, or was taken with another cable, at another temperature or of another sample. The "
            + "capture counts; until the difference is explained, what was only typed of other ports is worth less, too.",
        Evidence = "A list that was typed and a capture of the same port with the same ports in use, each with all its objects read.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "9 V 3 A were captured, and 9 V 2.22 A typed.", "offers:\n  - {port: C, list: [5V 3A, 9V 2.22A]}"),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (CaptureAnalysis typed in product.Captures.Where(static capture => capture.IsTyped))
        {
            foreach (Advertisement list in SourceLists(typed).Where(IsWhole))
            {
                Check(product, typed, list, hits);
            }
        }
    }

    private void Check(ProductArrangements product, CaptureAnalysis typed, Advertisement list, IProductHitSink hits)
    {
        string set = OfferGroup.SetOf(list.InUse);
        foreach (CaptureAnalysis capture in product.Captures.Where(one => !one.IsTyped && PortNames.Same(one.Port, typed.Port)))
        {
            Advertisement[] alike =
            [
                .. SourceLists(capture).Where(one => one.Message == list.Message && OfferGroup.SetOf(InUse(one, capture)) == set && IsWhole(one)),
            ];
            if (alike.Length == 0 || alike.Any(one => Difference(list, one) is null))
            {
                continue;
            }

            (Phrase of, Phrase captured) = Difference(list, alike[^1])!.Value;
            hits.Report(
                this,
                new Hit(Verdict.CannotTell, $"Typed: {of}. Captured: {captured} ({capture.File}, message {alike[^1].MessageIndex}). The capture counts.")
                {
                    Expected = captured, Observed = of,
                    NextStep = "Read the offers once more with the same cable, sample and ports in use, or capture them once more.",
                },
                new ProductPlace(typed.Port, list.InUse) { File = typed.File, MessageIndex = list.MessageIndex });
        }
    }

    private static IEnumerable<Advertisement> SourceLists(CaptureAnalysis capture) =>
        capture.Advertisements.Where(static list => list.Message.IsSourceList && !list.ByPartner);

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

        foreach (OfferedObject offered in captured.Objects.Where(static one => !one.IsZero))
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
