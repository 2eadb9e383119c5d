using Portwitness.Analysis.Rules;
using Portwitness.Following.Contracts;
using Portwitness.Following.Links;
using Portwitness.Following.States;

namespace Portwitness.Analysis.Exchanges;

/// <summary>A conversation, and where rules say what they suspect of it.</summary>
internal sealed class ConversationState(ConversationTrack track, ContractTracker contracts, ISuspicionSink sink)
    : Following.Exchanges.Conversation(track, contracts)
{
    /// <summary>Whether one more case of a rule is worth being looked at.</summary>
    public bool Wants(Rule rule, Party party) => sink.Wants(rule, party, NowUs);

    /// <summary>Takes what a rule suspects now. It rests on what each end said last, and on all until now.</summary>
    public void Suspect(Suspicion suspicion)
    {
        foreach (long saidUs in SaidUs)
        {
            suspicion.FromUs = saidUs < 0 ? suspicion.FromUs : Math.Min(suspicion.FromUs, saidUs);
        }

        suspicion.UntilUs = Math.Max(suspicion.UntilUs, NowUs);
        sink.Add(suspicion);
    }

    /// <summary>Says something that needs no proof.</summary>
    public void Report(Rule rule, in Hit hit, long timeUs, long index) => sink.Report(rule, hit, timeUs, index);
}
