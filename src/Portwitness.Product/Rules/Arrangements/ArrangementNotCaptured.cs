using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>A combination is printed, and nothing shows what its ports do together.</summary>
public sealed class ArrangementNotCaptured : ArrangementRule
{
    private const int MaxTold = 100;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "arrangement-not-captured",
        Severity = Severity.Caution,
        Title = "A printed combination was not captured in every attach order",
        Clause = "printed label",
        Why = "What is printed for several ports can be told only from captures of them in use together, in every attach order: captures of "
            + "single ports say nothing of it.",
        Evidence = "Captures of every port of the combination while all are in use. Captured in one attach order only, it is a note.",
        Example = new LabelExample(
            "0x0801912C 0x0002D12C", "15 W are printed for C1 and C2 together, of which there is no capture.",
            Label: "USB-C1: 5V⎓3A 9V⎓3A\nUSB-C2: 5V⎓3A\nC1+C2: 15W+15W"),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        // Without any list of PD there is nothing to compare, and that is said already.
        foreach (PrintedCombination printed in product.Rows.IsEmpty ? [] : product.Label?.Combinations.Take(MaxTold) ?? [])
        {
            string together = string.Join("+", printed.Ports);
            string[] ports = [.. printed.Ports.Where(port => !PortNames.IsPad(port))];
            IReadOnlyList<OfferGroup> orders = product.Groups.Find(printed.Ports);
            string[] missing = [.. ports.Where(port => orders.All(order => order.OfferOf(port) is null))];
            OfferGroup[] known = [.. orders.Where(order => order.OrderKnown)];
            if (missing.Length > 0 && IsMeasured(product, printed))
            {
                continue;
            }

            if (missing.Length > 0)
            {
                Phrase some = missing.Length < ports.Length ? Phrase.Of($", {Phrase.JoinNames(" and ", ports.Except(missing))} of it {(ports.Length - missing.Length == 1 ? "was" : "were")}") : "";
                Report(
                    hits, printed, new Hit(Verdict.CannotTell, $"{together} is printed, and {Phrase.JoinNames(" and ", missing)} in it {(missing.Length == 1 ? "was" : "were")} not captured{some}.")
                    {
                        Observed = "no capture", NextStep = NextSteps.CaptureInOrder(printed.Ports),
                    });
            }
            else if (ports.Length > 1 && known.Length < 2)
            {
                Phrase how = known.Length == 0 ? "in an attach order that is not stated" : Phrase.Of($"in one attach order only ({known[0].Text})");
                string[] other = known.Length == 0 || !known[0].IsInOrder(printed.Ports)
                    ? [.. printed.Ports] : [printed.Ports[^1], .. printed.Ports.Take(printed.Ports.Length - 1)];
                Report(
                    hits, printed, new Hit(default, $"{together} was captured {how}.")
                    {
                        IsNote = true, Expected = "captures in different attach orders (common practice)", NextStep = NextSteps.CaptureInOrder(other),
                    });
            }
        }
    }

    // Loads at once have told what captures would.
    private static bool IsMeasured(ProductArrangements product, PrintedCombination printed) =>
        product.Comparison?.Claims.Where(claim => claim.Combination == printed).ToArray() is { Length: > 0 } claims
        && Array.TrueForAll(claims, static claim => claim.Verdict == Verdict.Holds);

    private void Report(IProductHitSink hits, PrintedCombination printed, Hit hit) =>
        hits.Report(this, hit with { LabelLine = printed.At.Line }, new ProductPlace("", printed.Ports));
}
