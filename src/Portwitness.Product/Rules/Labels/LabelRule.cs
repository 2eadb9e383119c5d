using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Comparison;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A rule about a label and what was captured.</summary>
public abstract class LabelRule : Rule
{
    /// <summary>Looks at a comparison and reports what breaks this rule.</summary>
    public abstract void Check(LabelComparison comparison, ILabelHitSink hits);
}

/// <summary>A rule that reports the claims of one kind that have one outcome.</summary>
public abstract class ClaimRule : LabelRule
{
    private protected abstract ClaimKind Kind { get; }

    private protected abstract ClaimOutcome Outcome { get; }

    /// <inheritdoc/>
    public override void Check(LabelComparison comparison, ILabelHitSink hits)
    {
        foreach (Claim claim in comparison.Claims)
        {
            if (Concerns(claim))
            {
                hits.Report(
                    this,
                    new Hit(claim.Verdict, $"Printed: {claim.Text}. Seen: {claim.Evidence}.")
                    {
                        Position = claim.Position,
                        LabelLine = claim.At.Line,
                        Expected = claim.Printed,
                        Observed = claim.Observed,
                        NextStep = claim.NextStep,

                        // A promise that is kept is no fault, though the label may say less than is offered.
                        IsNote = claim.Verdict == Verdict.Holds,
                    },
                    claim.Port,
                    claim.Offer);
            }
        }
    }

    private protected virtual bool Concerns(Claim claim) => claim.Kind == Kind && claim.Outcome == Outcome;
}

/// <summary>Takes what label rules find.</summary>
public interface ILabelHitSink
{
    /// <summary>Takes one case, with the printed port and the offer that it is about.</summary>
    void Report(Rule rule, in Hit hit, string port, PortOffer? offer = null);
}
