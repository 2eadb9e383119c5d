using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Rules.Labels;

/// <summary>An object is offered that the label does not print.</summary>
/// <remarks>Ranges are often left off the plate (common practice, no source); they are noted, not held against it.</remarks>
public sealed class AdvertisedRatingNotPrinted : LabelRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "advertised-rating-not-printed",
        Severity = Severity.Mismatch,
        Title = "An offered voltage is not printed",
        Clause = "printed label; (EU) 2019/1782 Annex II for the sets of V, A and W on the plate",
        Why = "The plate lists the outputs that the product is rated for. A voltage that is offered and not printed was "
            + "perhaps never tested, or the label belongs to another product.",
        Evidence = "All printed modes of the port: unread words of the label leave it open.",
        Example = new LabelExample(
            "0x0801912C 0x0002D12C 0x0004B12C", "15 V is offered and not printed.", Label: "USB-C: 5V⎓3A 9V⎓3A"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(LabelComparison comparison, ILabelHitSink hits)
    {
        foreach (UnprintedOffer unprinted in comparison.Unprinted)
        {
            hits.Report(
                this,
                new Hit(
                    unprinted.MayBePrinted ? Verdict.CannotTell : Verdict.Fails,
                    Phrase.Of($"{unprinted.Port} offers {unprinted.Offered}; its printed ratings do not name it")
                    + (unprinted.MayBePrinted ? ", as far as they could be read." : "."))
                {
                    Position = unprinted.Offered.Position,
                    LabelLine = unprinted.At.Line,
                    Expected = $"printed with {unprinted.Port}",
                    Observed = unprinted.Offered.ToPhrase(),
                    NextStep = unprinted.MayBePrinted ? Phrase.Of($"Read line {unprinted.At.Line} of the label by hand.") : null,
                    IsNote = unprinted.Offered.Kind != PowerObjectKind.Fixed,
                },
                unprinted.Port,
                unprinted.Offer);
        }
    }
}
