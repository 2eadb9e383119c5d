using Portwitness.Analysis.Rules;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Exchanges;

/// <summary>Takes what rules suspect, and settles it when the capture has ended.</summary>
internal interface ISuspicionSink
{
    /// <summary>Whether one more case of a rule, resting on what was said since a time in microseconds, is worth being looked at.</summary>
    bool Wants(Rule rule, Party party, long fromUs);

    /// <summary>Takes a suspicion.</summary>
    void Add(Suspicion suspicion);

    /// <summary>Takes something that needs no proof, with its time in microseconds and its message, counted from 1.</summary>
    void Report(Rule rule, in Hit hit, long timeUs, long messageIndex);
}
