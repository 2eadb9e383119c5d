using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Conversation;

/// <summary>Keeps what rules find until it is decided what of it is told.</summary>
internal sealed class CollectedHits : IHitSink
{
    /// <summary>What they found, in order.</summary>
    public List<(Rule Rule, Hit Hit)> Hits { get; } = [];

    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit) => Hits.Add((rule, hit));

    /// <summary>Tells all of it.</summary>
    public void HandTo(IHitSink hits)
    {
        foreach ((Rule rule, Hit hit) in Hits)
        {
            hits.Report(rule, hit);
        }
    }
}
