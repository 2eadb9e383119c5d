namespace Portwitness.Analysis.Rules;

/// <summary>
/// Takes what rules find in a message of the port's partner. A fault of the device at the other end says nothing of the
/// product under test: it is worth knowing, and no more.
/// </summary>
public sealed class PartnerHits(IHitSink hits) : IHitSink
{
    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit) => hits.Report(rule, hit with
    {
        IsNote = true,
        Detail = $"{hit.Detail} The port's partner sent it, not the product.",
        NextStep = null,
    });
}
