using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Claims;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A rule about what a box or a page says beyond the label.</summary>
/// <param name="kind">The claims that it looks at.</param>
public abstract class BeyondLabelRule(ClaimKind kind) : Rule
{
    /// <summary>Reports a claim of its kind that the evidence does not bear out.</summary>
    public void Check(JudgedClaim judged, IProductHitSink hits)
    {
        if (judged.Claim.Kind != kind || judged.Verdict == Verdict.Holds)
        {
            return;
        }

        Phrase source = judged.Claim.Source.Length > 0 ? Phrase.Of($" ({judged.Claim.Source})") : "";
        hits.Report(
            this,
            new Hit(judged.Verdict, Phrase.Of($"\"{judged.Claim.Text}\"") + source + ": " + judged.Evidence + ".")
            {
                LabelLine = judged.LabelLine, Expected = judged.Possible, Observed = Phrase.Of($"{judged.Claim.Text}"),
                NextStep = judged.NextStep.IsEmpty ? null : judged.NextStep,
            },
            new ProductPlace(judged.Claim.Port, []));
    }
}
