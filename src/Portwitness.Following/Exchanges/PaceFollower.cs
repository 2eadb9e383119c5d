using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Following.Exchanges;

/// <summary>
/// Times that are no answers: between capabilities, after Wait, of silence while power is adjustable or EPR, of chunks, and
/// around resets.
/// </summary>
public sealed class PaceFollower(Conversation conversation, IConversationListener listener)
{
    private static readonly (MessageKind Request, string Limit)[] Waits =
    [
        (MessageKind.Request, TimingLimits.TSinkRequest), (MessageKind.EPRRequest, TimingLimits.TSinkRequest),
        (MessageKind.DRSwap, TimingLimits.TDRSwapWait), (MessageKind.PRSwap, TimingLimits.TPRSwapWait),
        (MessageKind.VCONNSwap, TimingLimits.TVCONNSwapWait), (MessageKind.EnterUSB, TimingLimits.TEnterUSBWait),
    ];

    // An instrument sees VBUS long before it is at vSafe5V.
    private const long TurnOnUs = 275_000;

    private readonly ChunkPace[] _chunks = [new(), new()];
    private readonly VbusArrival _arrival = new();
    private Moment? _vbusOn;
    private long _turnOnUs;
    private KeptDelivery _firstListAfter;
    private KeptDelivery _unansweredList;
    private KeptDelivery _waited;
    private MessageKind _putOff;
    private KeptDelivery _lastRequest;
    private KeptDelivery _failed;
    private (long TimeUs, int Millivolts)? _measured;

    /// <summary>A new message on SOP.</summary>
    public void OnBegan(in Delivery delivery)
    {
        if (delivery.FromSourceOrPlug)
        {
            OfSource(delivery);
        }
        else
        {
            OfSink(delivery);
        }

        AfterWait(delivery);
        Silence(delivery);
        AfterFailure(delivery);
        _chunks[delivery.FromSourceOrPlug ? 1 : 0].OnSent(delivery, conversation.PartyOf(delivery), listener);
        _chunks[delivery.FromSourceOrPlug ? 0 : 1].OnHeard(delivery, conversation.PartyOf(delivery), listener);
    }

    /// <summary>A message on SOP was acknowledged or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        _firstListAfter.Update(delivery);
        _unansweredList.Update(delivery);
        _waited.Update(delivery);
        _lastRequest.Update(delivery);
        foreach (ChunkPace pace in _chunks)
        {
            pace.Update(delivery);
        }
    }

    /// <summary>A message on SOP is done.</summary>
    public void OnClosed(in Delivery delivery)
    {
        if (!delivery.IsAcknowledged && !delivery.AcknowledgementIsGarbled && delivery.Attempts == delivery.AllowedAttempts)
        {
            _failed.Keep(delivery);
        }
    }

    /// <summary>An answer put a request off.</summary>
    public void OnWait(MessageKind request, in Delivery wait)
    {
        _putOff = request;
        _waited.Keep(wait);
    }

    /// <summary>Something after which the source owes its first capabilities.</summary>
    public void OwesList(in Delivery after) => _firstListAfter.Keep(after);

    /// <summary>A Hard Reset, an attach or a detach.</summary>
    public void Reset()
    {
        (_vbusOn, _measured) = (null, null);
        _firstListAfter.Forget();
        _unansweredList.Forget();
        _waited.Forget();
        _lastRequest.Forget();
        _failed.Forget();
        _arrival.Reset();
        foreach (ChunkPace pace in _chunks)
        {
            pace.Reset();
        }
    }

    /// <summary>VBUS was seen to come on.</summary>
    public void OnVbusOn(long timeUs) => (_vbusOn, _turnOnUs) = (Moment.Event(timeUs), TurnOnUs);

    /// <summary>An attach, or a Hard Reset, after which VBUS comes.</summary>
    public void ExpectVbus(bool isOn) => _arrival.Begin(isOn);

    /// <summary>VBUS was measured.</summary>
    public void OnMeasured(long timeUs, int millivolts)
    {
        if (_arrival.OnMeasured(millivolts))
        {
            (_vbusOn, _turnOnUs) = (Moment.Event(timeUs), 0);
        }

        _measured = (timeUs, millivolts);
    }

    /// <summary>A Hard Reset, with which a source ends a silence.</summary>
    public void OnHardReset(long timeUs) => Silence(Moment.Event(timeUs));

    /// <summary>The capture has ended; what was still waited for never came, unless it was missed.</summary>
    public void Complete(long endUs)
    {
        if (_vbusOn is { } on && conversation.States.RolesSwapped == false)
        {
            listener.OnElapsed(new Interval(TimingLimits.TFirstSourceCap, on, Moment.Event(endUs))
            {
                Party = Party.Source, Awaited = Awaited.FirstListNeverCame, Index = conversation.Index, Bounds = Bounds.Max,
                AllowedUs = _turnOnUs, IsProven = false, IsToldWhenOpen = true,
            });
        }

        // A supply that is still measured is what shows that the source did not end it.
        if (_measured is var (timeUs, millivolts) && IsHeld(millivolts))
        {
            Silence(Moment.Event(timeUs));
        }
    }

    private void OfSource(in Delivery delivery)
    {
        bool isList = delivery.Kind == MessageKind.SourceCapabilities
            || (delivery.Kind == MessageKind.EPRSourceCapabilities && !delivery.IsLaterChunk);
        if (isList)
        {
            FirstList(delivery);
            BetweenLists(delivery);
        }

        _vbusOn = null;
        _firstListAfter.Forget();
        _unansweredList.Forget();
        if (delivery.Kind == MessageKind.SourceCapabilities && !conversation.HasContract)
        {
            _unansweredList.Keep(delivery);
        }
    }

    private void FirstList(in Delivery list)
    {
        if (_vbusOn is { } on)
        {
            listener.OnElapsed(First(list, on) with
            {
                AllowedUs = _turnOnUs, IsProven = list.Header.MessageId == 0,
            });
        }
        else if (_firstListAfter is { IsKept: true, Value.IsAcknowledged: true })
        {
            listener.OnElapsed(First(list, Moment.EndOfGoodCrc(_firstListAfter.Value.AcknowledgedUs)) with
            {
                LateAllowanceUs = ExchangeFollower.LostAttempts(list), IsProven = list.Continuity == Continuity.Continuous,
            });
        }
    }

    private Interval First(in Delivery list, Moment from) => new(TimingLimits.TFirstSourceCap, from, list.Start)
    {
        Party = conversation.PartyOf(list), Awaited = Awaited.FirstList, Name = list.Kind.Name, Index = list.Index, Bounds = Bounds.Max,
    };

    // Only lists that nobody acknowledges are sent again by this timer; an acknowledged one is followed by a request or a reset.
    private void BetweenLists(in Delivery list)
    {
        if (_unansweredList is { IsKept: true, Value: { IsAcknowledged: false, AcknowledgementIsGarbled: false } })
        {
            ref readonly Delivery before = ref _unansweredList.Value;
            Interval interval = new(TimingLimits.TTypeCSendSourceCap, before.End, list.Start)
            {
                Party = conversation.PartyOf(list), Awaited = Awaited.NextList, Index = list.Index,
                Bounds = Bounds.Max, LateAllowanceUs = ExchangeFollower.LostAttempts(list),
                IsProven = list.Continuity == Continuity.Continuous, IsToldWhenOpen = true,
            };
            listener.OnElapsed(interval);
            listener.OnElapsed(interval with
            {
                From = before.Start, Bounds = Bounds.Min, LateAllowanceUs = 0,
                IsProven = before.Attempts == before.AllowedAttempts,
            });
        }
    }

    private void OfSink(in Delivery delivery)
    {
        _unansweredList.Forget();
        if (delivery.Kind != MessageKind.Request)
        {
            return;
        }

        if (_lastRequest.IsKept && conversation.Granted is { Kind: PowerObjectKind.Pps }
            && !conversation.IsEpr)
        {
            listener.OnElapsed(new Interval(TimingLimits.TPPSRequest, _lastRequest.Value.End, delivery.Start)
            {
                Party = conversation.PartyOf(delivery), Awaited = Awaited.NextPpsRequest, Index = delivery.Index,
                AllowedUs = 2 * TurnOnUs, IsProven = delivery.Continuity == Continuity.Continuous,
            });
        }

        _lastRequest.Keep(delivery);
    }

    private void AfterWait(in Delivery delivery)
    {
        if (!_waited.IsKept || _waited.Value.Index == delivery.Index)
        {
            return;
        }

        ref readonly Delivery wait = ref _waited.Value;

        if (delivery.Kind == _putOff && delivery.FromSourceOrPlug != wait.FromSourceOrPlug)
        {
            foreach ((MessageKind request, string limit) in Waits)
            {
                if (request == _putOff)
                {
                    listener.OnElapsed(new Interval(limit, wait.End, delivery.Start)
                    {
                        Party = conversation.PartyOf(delivery), Awaited = Awaited.RequestAfterWait, Name = request.Name, Index = delivery.Index,
                        IsProven = delivery.Continuity == Continuity.Continuous,
                        Awaits = (SopKind.Sop, !delivery.FromSourceOrPlug),
                    });
                }
            }

            _waited.Forget();
        }
        else if (delivery.FromSourceOrPlug == wait.FromSourceOrPlug)
        {
            // New capabilities are answered at once.
            _waited.Forget();
        }
    }

    // Nobody has spoken: in PPS and in EPR mode the source ends that with a Hard Reset, before which the sink speaks.
    private void Silence(in Delivery ending)
    {
        if (!MayNotBeSilent)
        {
            return;
        }

        Interval silence = SilenceUntil(ending.Start, ending.Index) with
        {
            IsToldWhenOpen = false,
            LateAllowanceUs = ExchangeFollower.LostAttempts(ending),
            IsProven = ending.Continuity == Continuity.Continuous,
            Awaits = (SopKind.Sop, !ending.FromSourceOrPlug),
        };
        listener.OnElapsed(silence);
        bool isKeepAlive = ending.Kind == MessageKind.ExtendedControl && ending.Detail == (int)ExtendedControlType.EprKeepAlive;
        if (conversation.IsEpr && (isKeepAlive || !ending.FromSourceOrPlug))
        {
            listener.OnElapsed(silence with
            {
                Parameter = TimingLimits.TSinkEPRKeepAlive,
                Party = conversation.PartyOf(ending),
                Awaited = Awaited.EprKeepAlive,
            });
        }
    }

    // What else shows that time went by: a Hard Reset, a measurement.
    private void Silence(Moment to)
    {
        if (MayNotBeSilent)
        {
            listener.OnElapsed(SilenceUntil(to, conversation.Index));
        }
    }

    private bool MayNotBeSilent => conversation.HasSpoken && conversation.HasContract && conversation.ModeIsKnown
        && (conversation.IsEpr || conversation.Granted is { Kind: PowerObjectKind.Pps });

    private Interval SilenceUntil(Moment to, long index)
    {
        ref readonly Delivery last = ref conversation.Last;
        Moment from = last.IsAcknowledged ? Moment.EndOfGoodCrc(last.AcknowledgedUs) : last.End;
        return new Interval(conversation.IsEpr ? TimingLimits.TSourceEPRKeepAlive : TimingLimits.TPPSTimeout, from, to)
        {
            Party = conversation.RolesWereSwapped ? Party.Unsure : Party.Source,
            Awaited = Awaited.ResetAfterSilence,
            Index = index,
            Bounds = Bounds.Max,
            IsProven = false,
            IsToldWhenOpen = true,
        };
    }

    // Above vSafe5V the contract is surely in force; at 5 V default power may be.
    private bool IsHeld(int millivolts) => millivolts > Electrical.Safe5VMaximum.Millivolts
        || (conversation.GrantedVoltage is { } granted && granted <= Electrical.Safe5VMaximum && millivolts > Electrical.Safe0VMaximum.Millivolts);

    // A Soft_Reset this long after a message without a GoodCRC is about something else. Common practice, no source.
    private const long OtherReasonAfterUs = 100_000;

    private void AfterFailure(in Delivery delivery)
    {
        if (_failed.IsKept && delivery.Kind == MessageKind.SoftReset
            && _failed.Value.FromSourceOrPlug == delivery.FromSourceOrPlug
            && delivery.FirstUs - _failed.Value.LastUs < OtherReasonAfterUs)
        {
            listener.OnElapsed(new Interval(TimingLimits.TSoftReset, _failed.Value.End, delivery.Start)
            {
                Party = conversation.PartyOf(delivery), Awaited = Awaited.SoftReset,
                Index = delivery.Index, Bounds = Bounds.Max,
                AllowedUs = RetryTimes.MaxReceiveUs, LateAllowanceUs = ExchangeFollower.LostAttempts(delivery),
            });
        }

        _failed.Forget();
    }
}
