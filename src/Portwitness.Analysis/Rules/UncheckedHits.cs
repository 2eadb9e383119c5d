using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.Rules;

/// <summary>Takes what rules find in a list that was recognised on a photo and compared by nobody: it may be misread, and accuses nobody.</summary>
public sealed class UncheckedHits(IHitSink hits) : IHitSink
{
    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit) => hits.Report(rule, Doubted(hit));

    /// <summary>The case as one that cannot be told; what is no case stays.</summary>
    public static Hit Doubted(in Hit hit) => hit.IsNote ? hit : hit with { Verdict = Verdict.CannotTell, NextStep = CaptureSteps.ComparePhoto };
}
