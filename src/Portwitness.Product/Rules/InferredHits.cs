using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;

namespace Portwitness.Product.Rules;

/// <summary>Takes what rules find about a part that was only inferred: it accuses nobody.</summary>
/// <param name="name">The part.</param>
/// <param name="hits">Where it goes.</param>
internal sealed class InferredHits(string name, IProductHitSink hits) : IProductHitSink
{
    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit, in ProductPlace place) => hits.Report(
        rule,
        hit.Verdict != Verdict.Fails || hit.IsNote ? hit : hit with
        {
            Verdict = Verdict.CannotTell,
            NextStep = Phrase.Of($"Read the marking of {name} and find its data sheet: so far it is only inferred what it is."),
        },
        place);
}
