using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Following.Exchanges;

/// <summary>The times from Accept to PS_RDY.</summary>
public static class TransitionTimes
{
    /// <summary>Hands on what limits a transition.</summary>
    public static void Tell(Exchange exchange, in Delivery ready, Party party, IConversationListener listener)
    {
        if (!exchange.Answer.IsAcknowledged)
        {
            return;
        }

        PowerStep step = exchange.Step;
        Interval whole = new(step.Limit, Moment.EndOfGoodCrc(exchange.Answer.AcknowledgedUs), ready.Start)
        {
            Party = party,
            Awaited = Awaited.PsRdy,
            Index = ready.Index,
            Bounds = Bounds.Max,
            LateAllowanceUs = ExchangeFollower.LostAttempts(ready),
            IsProven = ready.Continuity == Continuity.Continuous,
        };
        listener.OnElapsed(whole);

        // Before there was tSrcTransReq, what limits the source is that the sink gives up.
        if (step.Limit is TimingLimits.TSrcTransReqSpr or TimingLimits.TSrcTransReqEpr)
        {
            listener.OnElapsed(whole with
            {
                Parameter = step.IsEpr ? TimingLimits.TPSTransitionEpr : TimingLimits.TPSTransitionSpr,
                ExceptIn = Editions.R31 | Editions.R32,
            });
        }

        if (step.MovesFixed)
        {
            listener.OnElapsed(whole with { Parameter = TimingLimits.TSrcTransition, Bounds = Bounds.Min });
        }
    }
}
