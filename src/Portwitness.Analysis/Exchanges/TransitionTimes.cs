using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Exchanges;

/// <summary>The times from Accept to PS_RDY.</summary>
internal static class TransitionTimes
{
    /// <summary>Hands on what limits a transition.</summary>
    public static void Take(Exchange exchange, in Delivery ready, Party party, TimingChecks timing)
    {
        if (!exchange.Answer.IsAcknowledged)
        {
            return;
        }

        PowerStep step = exchange.Step;
        Interval whole = new(step.Limit, Moment.EndOfGoodCrc(exchange.Answer.AcknowledgedUs), ready.Start)
        {
            Party = party,
            What = "PS_RDY",
            Index = ready.Index,
            Bounds = Bounds.Max,
            LateAllowanceUs = ExchangeFollower.LostAttempts(ready),
            IsProven = ready.Continuity == Continuity.Continuous,
        };
        timing.Take(whole);

        // Before there was tSrcTransReq, what limits the source is that the sink gives up.
        if (step.Limit is TimingLimits.TSrcTransReqSpr or TimingLimits.TSrcTransReqEpr)
        {
            timing.Take(whole with
            {
                Parameter = step.IsEpr ? TimingLimits.TPSTransitionEpr : TimingLimits.TPSTransitionSpr,
                ExceptIn = Editions.R31 | Editions.R32,
            });
        }

        if (step.MovesFixed)
        {
            timing.Take(whole with { Parameter = TimingLimits.TSrcTransition, Bounds = Bounds.Min });
        }
    }
}
