using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Following.Exchanges;

/// <summary>Pairs requests with the answers that they are owed, on SOP and towards the cable.</summary>
public sealed class ExchangeFollower(Conversation conversation, LinkFollower links, IConversationListener listener)
{
    // Lost attempts of an answer may have gone by: nRetryCount times tReceive, tRetry and the frame (R3.2v1.1, Table 6.70).
    private const int MaxRetries = 3;
    private static readonly long RetryUs = RetryTimes.MaxReceiveUs + RetryTimes.MaxRetryUs;

    // Beyond this whoever waits has given up, whatever the edition (tSenderResponse and tPSTransition, with a reset behind).
    private const long GivenUpAfterUs = 60_000;
    private const long EarliestResetUs = 23_000;
    private const long EarliestPowerResetUs = 440_000;
    private const long LatestPowerResetUs = 1_100_000;

    // What a reset may come off its timer: sending it, and stamps of either end. Common practice, no source.
    private const long TimerSlackUs = 10_000;

    // The new VCONN source's PS_RDY comes within tVCONNSourceOn, 50 ms; its partner waits up to 200 ms (tVCONNSourceTimeout, from memory).
    private const long VconnCompletedUs = 200_000;
    private static readonly long DataResetCompletedUs = TimingLimits.LongestUs(TimingLimits.TDataReset);

    private readonly Exchange _cable = new();

    /// <summary>A new message.</summary>
    public void OnBegan(in Delivery delivery)
    {
        if (delivery.Sop == SopKind.Sop)
        {
            OnSop(delivery);
        }
        else if (delivery.Kind == MessageKind.VendorDefined)
        {
            OnCable(delivery);
        }
    }

    /// <summary>A message was acknowledged or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        if (delivery.Sop != SopKind.Sop)
        {
            _cable.Update(delivery);
            return;
        }

        foreach (Exchange exchange in conversation.Exchanges)
        {
            exchange.Update(delivery);
        }
    }

    /// <summary>A Hard Reset, with which whoever waits in vain ends the wait.</summary>
    public void OnHardReset(long timeUs)
    {
        foreach (Exchange exchange in conversation.Exchanges)
        {
            if (exchange.IsOpen && exchange.Row.Request == MessageKind.SoftReset)
            {
                HardResetAfter(exchange, timeUs);
            }

            GiveUp(exchange, timeUs);
        }

        Forget();
    }

    /// <summary>The capture has ended; what is still owed then never came, unless it was missed.</summary>
    public void Complete(long endUs)
    {
        foreach (Exchange exchange in conversation.Exchanges)
        {
            long limitUs = exchange.IsInSequel ? LatestPowerResetUs : GivenUpAfterUs;
            if (exchange.IsOpen && exchange.Row.Sequel != Sequel.Other && AcknowledgedUs(exchange) >= 0 && endUs - AcknowledgedUs(exchange) > limitUs)
            {
                Unanswered(exchange, endUs, isProven: false);
            }
        }
    }

    /// <summary>Nothing is owed any more.</summary>
    public void Forget()
    {
        foreach (Exchange exchange in conversation.Exchanges)
        {
            exchange.Close();
        }

        _cable.Close();
    }

    /// <summary>What attempts that the capture misses may have taken.</summary>
    public static long LostAttempts(in Delivery delivery) => (MaxRetries - 1) * (RetryUs + BitRate.MostUs(delivery.Bits));

    private void OnSop(in Delivery delivery)
    {
        Exchange theirs = conversation.Exchanges[delivery.FromSourceOrPlug ? 0 : 1];
        Exchange own = conversation.Exchanges[delivery.FromSourceOrPlug ? 1 : 0];
        bool wasAsked = theirs.IsOpen;
        CompleteSequel(theirs, delivery);
        CompleteSequel(own, delivery);
        if (delivery.Kind == MessageKind.SoftReset)
        {
            GiveUp(own, delivery.FirstUs);
            theirs.Close();
        }
        else if (theirs.IsOpen)
        {
            Answer(theirs, delivery);
        }

        // A list that answers Get_Source_Cap is not one that has to be answered; what comes in chunks is answered after the last.
        if (AnswerTable.Of(delivery) is { } row && !delivery.HasMoreChunks && (row.IsOwed || !wasAsked))
        {
            if (own.IsOpen && !own.IsInSequel)
            {
                Supersede(own, delivery);
            }

            own.Begin(row, delivery, links.Find(delivery.Sop, !delivery.FromSourceOrPlug).KnowsNext);
        }
    }

    // Data_Reset and VCONN_Swap are completed by either end.
    private void CompleteSequel(Exchange exchange, in Delivery delivery)
    {
        if (exchange is not { IsOpen: true, IsInSequel: true, Row.Sequel: Sequel.Other })
        {
            return;
        }

        bool isDataReset = exchange.Row.Request == MessageKind.DataReset;
        if (delivery.Kind == exchange.Completion)
        {
            exchange.Close();
        }
        else if (exchange.AcknowledgedUs >= 0 && delivery.FirstUs - exchange.AcknowledgedUs
            > (isDataReset ? DataResetCompletedUs : VconnCompletedUs) + LostAttempts(delivery))
        {
            listener.OnNotCompleted(exchange, delivery);

            exchange.Close();
        }
    }

    private void OnCable(in Delivery delivery)
    {
        if (delivery.FromSourceOrPlug)
        {
            if (_cable.IsOpen && _cable.Row.IsAnsweredBy(_cable.Request, delivery))
            {
                Respond(_cable, delivery);
                _cable.Close();
            }
        }
        else if (AnswerTable.Of(delivery) is { } row)
        {
            _cable.Begin(row, delivery, otherIsKnown: false);
        }
    }

    private void Answer(Exchange exchange, in Delivery delivery)
    {
        if (exchange.IsInSequel)
        {
            AnswerSequel(exchange, delivery);
        }
        else if (exchange.Row.IsAnsweredBy(exchange.Request, delivery) || AnswerRow.IsRefusal(delivery))
        {
            AnswerFirst(exchange, delivery);
        }
        else if (delivery.GoesOnForCertain && !delivery.IsLaterChunk
            && AcknowledgedUs(exchange) >= 0 && delivery.FirstUs - AcknowledgedUs(exchange) > GivenUpAfterUs)
        {
            // It speaks again, nothing of it was missed, and it is no answer.
            Unanswered(exchange, delivery.FirstUs, exchange.OtherIsKnown);
        }
        else if (exchange.Row.Request == MessageKind.VendorDefined)
        {
            // A structured VDM may be interrupted by any other message (R3.2v1.1, 6.4.4.4, from memory).
            exchange.Close();
        }
        else if (AnswerTable.IsOnlyAnswer(delivery))
        {
            // A wrong answer is another rule's matter; nothing else is waited for.
            exchange.Close();
        }
    }

    private void AnswerFirst(Exchange exchange, in Delivery delivery)
    {
        Respond(exchange, delivery);
        listener.OnAnswered(exchange, delivery);

        bool goesOn = exchange.Row.Sequel != Sequel.None
            && (delivery.Kind == MessageKind.Accept || delivery.Detail == (int)EprModeAction.EnterAcknowledged);
        if (!goesOn)
        {
            exchange.Close();
            return;
        }

        PowerStep step = exchange.Row.Sequel == Sequel.PowerTransition
            ? PowerStep.Of(conversation.Contracts, conversation.Granted, conversation.GrantedVoltage)
            : default;
        exchange.GoOn(delivery, step);
        if (exchange.Row.Sequel == Sequel.RoleSwap)
        {
            links.RolesChange = true;
        }
        else if (exchange.Row.Sequel == Sequel.Other)
        {
            links.ResetCables(delivery.FirstUs);
        }
    }

    private void AnswerSequel(Exchange exchange, in Delivery delivery)
    {
        if (exchange.Row.Sequel == Sequel.PowerTransition && delivery.Kind == MessageKind.PSRDY)
        {
            TransitionTimes.Tell(exchange, delivery, conversation.PartyOf(delivery), listener);
            exchange.Close();
        }
        else if (exchange.Row.Sequel == Sequel.EprEntry && delivery.Kind == MessageKind.EPRMode)
        {
            EntryTime(exchange, delivery);
            exchange.Close();
        }
        else if (exchange.Row.Sequel == Sequel.PowerTransition && delivery.GoesOnForCertain
            && !delivery.IsLaterChunk && AcknowledgedUs(exchange) >= 0
            && delivery.FirstUs - AcknowledgedUs(exchange) > LatestPowerResetUs)
        {
            Unanswered(exchange, delivery.FirstUs, isProven: true);
        }
    }

    // Whoever asks again has given up; whether the answer was missed shows when the other speaks.
    private void Supersede(Exchange exchange, in Delivery next)
    {
        if (exchange is { Row.IsOwed: true, OtherIsKnown: true } && AcknowledgedUs(exchange) >= 0
            && next.FirstUs - AcknowledgedUs(exchange) >= EarliestResetUs && next.Continuity == Continuity.Continuous)
        {
            listener.OnSuperseded(exchange, next);
        }
    }

    private void GiveUp(Exchange exchange, long timeUs)
    {
        if (!exchange.IsOpen || AcknowledgedUs(exchange) < 0 || !exchange.Row.IsOwed || exchange.Row.Sequel == Sequel.Other)
        {
            exchange.Close();
            return;
        }

        // A reset just when the timer runs out speaks for an answer that did not come. It proves it only where the answer
        // that the capture may miss would have had to be followed by more: for power, within the transition. Otherwise the
        // whole exchange may be missing from the capture, and the reset have another reason.
        long waitedUs = timeUs - AcknowledgedUs(exchange);
        bool isPower = exchange.IsInSequel;
        if (waitedUs >= (isPower ? EarliestPowerResetUs : EarliestResetUs))
        {
            Unanswered(exchange, timeUs, isPower && HasRunOut(exchange, waitedUs));
        }

        exchange.Close();
    }

    // The timer of whoever waits for PS_RDY; that of EPR mode entry runs as long as the one of SPR (tPSTransition, tEnterEPR).
    private static bool HasRunOut(Exchange exchange, long waitedUs)
    {
        string timer = exchange.Step.IsEpr ? TimingLimits.TPSTransitionEpr : TimingLimits.TPSTransitionSpr;
        return waitedUs >= TimingLimits.ShortestUs(timer) - TimerSlackUs && waitedUs <= TimingLimits.LongestUs(timer) + TimerSlackUs;
    }

    private void Unanswered(Exchange exchange, long timeUs, bool isProven)
    {
        if (exchange.Row.IsOwed && AcknowledgedUs(exchange) >= 0)
        {
            listener.OnUnanswered(exchange, timeUs, isProven);
        }

        exchange.Close();
    }

    // A kernel log shows no GoodCRC; a message that it sent and does not call unacknowledged was acknowledged.
    private long AcknowledgedUs(Exchange exchange) => exchange.AcknowledgedUs >= 0 || !conversation.IsOfSoftware
        ? exchange.AcknowledgedUs
        : (exchange.IsInSequel ? exchange.Answer : exchange.Request).LastUs;

    private void Respond(Exchange exchange, in Delivery answer)
    {
        if (exchange.Request.IsAcknowledged)
        {
            listener.OnElapsed(new Interval(exchange.Row.Limit, Moment.EndOfGoodCrc(exchange.Request.AcknowledgedUs), answer.Start)
            {
                Party = answer.Sop == SopKind.Sop ? conversation.PartyOf(answer) : answer.Sender,
                Awaited = Awaited.Answer,
                Name = exchange.Row.Name,
                Index = answer.Index,
                LateAllowanceUs = LostAttempts(answer),

                // A Soft_Reset begins the count anew: an answer with 0 is the first since (6.7.1.3).
                IsProven = answer.Continuity == Continuity.Continuous
                    || (exchange.Row.Request == MessageKind.SoftReset && answer.Header.MessageId == 0),
                IsToldWhenOpen = exchange.Row.Request == MessageKind.SoftReset,
            });
        }
    }

    private void EntryTime(Exchange exchange, in Delivery delivery)
    {
        if (exchange.Request.IsAcknowledged)
        {
            listener.OnElapsed(new Interval(
                TimingLimits.TEnterEPR, Moment.EndOfGoodCrc(exchange.Request.AcknowledgedUs), delivery.Start)
            {
                Party = conversation.PartyOf(delivery),
                Awaited = Awaited.EprEntryEnd,
                Index = delivery.Index,
                Bounds = Bounds.Max,
                LateAllowanceUs = LostAttempts(delivery),
                IsProven = delivery.Continuity == Continuity.Continuous,
            });
        }
    }

    // A Soft_Reset that is not even acknowledged has failed when tReceive of its last attempt has run out.
    private void HardResetAfter(Exchange softReset, long timeUs)
    {
        bool unheard = !softReset.Request.IsAcknowledged && softReset.Request.Attempts == softReset.Request.AllowedAttempts;
        if (unheard)
        {
            listener.OnElapsed(new Interval(TimingLimits.THardReset, softReset.Request.End, Moment.Event(timeUs))
            {
                Party = conversation.PartyOf(softReset.Request),
                Awaited = Awaited.ResetAfterSoftReset,
                Index = softReset.Request.Index,
                Bounds = Bounds.Max,
                AllowedUs = RetryTimes.MaxReceiveUs,
            });
        }
    }
}
