using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Comparison;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>Ports together are offered more than the product is printed to give.</summary>
/// <remarks>
/// All ports at once are judged by the rules about printed power; this one looks at every other arrangement. Without a printed
/// total a sum that is larger than all others is worth knowing.
/// </remarks>
public sealed class CombinationBudgetExceeded : ArrangementRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "combination-budget-exceeded",
        Severity = Severity.Mismatch,
        Title = "Ports together are offered more than the printed total",
        Clause = "printed label",
        Why = "What is offered may be drawn, by every device at once. A supply that offers more than it is rated for runs hot, "
            + "shuts down, or lets its voltage collapse.",
        Evidence = "Captures of all ports in use, in one attach order. A total that may be the most of one port cannot be told.",
        Example = new ScriptExample(
            """
            port: C1
            in_use: [C1]
            edition: R3.0
            cable: 5A detachable
            source: [5V 3A, 9V 3A, 15V 3A, 20V 3.25A]
            steps:
              - attach
              - discover-cable
              - advertise
              - contract 4 at 3.25A
            """,
            "The product is printed with 45 W in total; C1 alone is offered 65 W.",
            Label: "USB-C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A\nUSB-C2: 5V⎓3A\nTotal Output: 45W"),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (Claim claim in product.Comparison?.Claims.Where(claim => claim.Outcome == ClaimOutcome.OverBudget) ?? [])
        {
            hits.Report(
                this,
                new Hit(claim.Verdict, $"Printed: {claim.Text}. Seen: {claim.Evidence}.")
                {
                    LabelLine = claim.At.Line, Expected = $"at most {claim.Printed}", Observed = claim.Observed, NextStep = claim.NextStep,
                },
                ProductPlace.Of(claim.Offer!) with { Port = "" });
        }

        if (product.Label?.Total is null && product.Rows.Any(row => row.IsReduced))
        {
            CheckUnprinted(product, hits);
        }
    }

    // A product that reduces its ports has a budget; the largest sum that it was ever seen to offer shows it.
    private void CheckUnprinted(ProductArrangements product, IProductHitSink hits)
    {
        OfferGroup[] whole = [.. product.Groups.All.Where(group => group.IsComplete).OrderByDescending(group => group.SumMilliwatts)];
        if (whole is not [{ InUse.Length: > 1 } largest, ..])
        {
            return;
        }

        string set = OfferGroup.SetOf(largest.InUse);
        bool isPrinted = product.Label?.Combinations.Any(printed => OfferGroup.SetOf(printed.Ports) == set) == true;
        if (!isPrinted && whole.FirstOrDefault(group => OfferGroup.SetOf(group.InUse) != set) is { } next
            && largest.SumMilliwatts - next.SumMilliwatts > SharingJudgement.RoundingMilliwatts)
        {
            hits.Report(
                this,
                new Hit(
                    default,
                    $"With {largest.Text}, {PowerRules.Watts(largest.SumMilliwatts)} are offered together, more than in any other arrangement "
                    + $"({next.Text}: {PowerRules.Watts(next.SumMilliwatts)}), and no total is printed. Whether the supply carries it shows only under load.")
                {
                    IsNote = true, Observed = $"{PowerRules.Watts(largest.SumMilliwatts)}",
                },
                ProductPlace.Of(largest.Offers[0]) with { Port = "" });
        }
    }
}
