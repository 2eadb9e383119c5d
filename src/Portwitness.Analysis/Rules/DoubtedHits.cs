using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Rules;

/// <summary>
/// Takes what rules find in what may not be what it seems: a list that was recognised on a photo and compared by nobody, a message of which
/// the capture does not tell which port sent it. It accuses nobody.
/// </summary>
/// <param name="hits">Where it goes.</param>
/// <param name="nextStep">What would settle it.</param>
public sealed class DoubtedHits(IHitSink hits, Phrase nextStep) : IHitSink
{
    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit) => hits.Report(rule, Doubted(hit, nextStep));

    /// <summary>The case as one that cannot be told; what is no case stays.</summary>
    public static Hit Doubted(in Hit hit, Phrase nextStep) => hit.IsNote ? hit : hit with { Verdict = Verdict.CannotTell, NextStep = nextStep };
}
