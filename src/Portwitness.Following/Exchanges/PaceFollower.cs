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
    private Delivery? _firstListAfter;
    private Delivery? _unansweredList;
    private Delivery? _waited;
    private MessageKind _putOff;
    private Delivery? _lastRequest;
    private Delivery? _failed;
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
        Silence(delivery.Start, delivery.Index, delivery);
        AfterFailure(delivery);
        if (_chunks[delivery.FromSourceOrPlug ? 1 : 0].OnSent(delivery, conversation.PartyOf(delivery), listener) is { } unmet)
        {
            listener.OnChunkMissing(unmet, delivery);
        }

        _chunks[delivery.FromSourceOrPlug ? 0 : 1].OnHeard(delivery, conversation.PartyOf(delivery), listener);
    }

    /// <summary>A message on SOP was acknowledged or sent again.</summary>
    public void Update(in Delivery delivery)
    {
        UpdateOne(ref _firstListAfter, delivery);
        UpdateOne(ref _unansweredList, delivery);
        UpdateOne(ref _waited, delivery);
        UpdateOne(ref _lastRequest, delivery);
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
            _failed = delivery;
        }
    }

    /// <summary>An answer put a request off.</summary>
    public void OnWait(MessageKind request, in Delivery wait) => (_putOff, _waited) = (request, wait);

    /// <summary>Something after which the source owes its first capabilities.</summary>
    public void OwesList(in Delivery after) => _firstListAfter = after;

    /// <summary>A Hard Reset, an attach or a detach.</summary>
    public void Reset()
    {
        (_vbusOn, _firstListAfter, _unansweredList, _waited) = (null, null, null, null);
        (_lastRequest, _failed, _measured) = (null, null, null);
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
        if (_arrival.Take(millivolts))
        {
            (_vbusOn, _turnOnUs) = (Moment.Event(timeUs), 0);
        }

        _measured = (timeUs, millivolts);
    }

    /// <summary>A Hard Reset, with which a source ends a silence.</summary>
    public void OnHardReset(long timeUs) => Silence(Moment.Event(timeUs), conversation.Index, null);

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
            Silence(Moment.Event(timeUs), conversation.Index, null);
        }
    }

    private static void UpdateOne(ref Delivery? kept, in Delivery delivery)
    {
        if (kept?.Index == delivery.Index)
        {
            kept = delivery;
        }
    }

    // Mostly there is nothing to forget, and a delivery is long.
    private static void Forget(ref Delivery? kept)
    {
        if (kept is not null)
        {
            kept = null;
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
        Forget(ref _firstListAfter);
        Forget(ref _unansweredList);
        if (delivery.Kind == MessageKind.SourceCapabilities && !conversation.HasContract)
        {
            _unansweredList = delivery;
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
        else if (_firstListAfter is { IsAcknowledged: true } after)
        {
            listener.OnElapsed(First(list, Moment.EndOfGoodCrc(after.AcknowledgedUs)) with
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
        if (_unansweredList is { IsAcknowledged: false, AcknowledgementIsGarbled: false } before)
        {
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
        Forget(ref _unansweredList);
        if (delivery.Kind != MessageKind.Request)
        {
            return;
        }

        if (_lastRequest is { } before && conversation.Granted is { Kind: PowerObjectKind.Pps }
            && !conversation.IsEpr)
        {
            listener.OnElapsed(new Interval(TimingLimits.TPPSRequest, before.End, delivery.Start)
            {
                Party = conversation.PartyOf(delivery), Awaited = Awaited.NextPpsRequest, Index = delivery.Index,
                AllowedUs = 2 * TurnOnUs, IsProven = delivery.Continuity == Continuity.Continuous,
            });
        }

        _lastRequest = delivery;
    }

    private void AfterWait(in Delivery delivery)
    {
        if (_waited is not { } wait || wait.Index == delivery.Index)
        {
            return;
        }

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

            _waited = null;
        }
        else if (delivery.FromSourceOrPlug == wait.FromSourceOrPlug)
        {
            // New capabilities are answered at once.
            _waited = null;
        }
    }

    // Nobody has spoken: in PPS and in EPR mode the source ends that with a Hard Reset, before which the sink speaks.
    // It ends with a message, or with anything that shows the time: a Hard Reset, a measurement.
    private void Silence(Moment to, long index, in Delivery? ending)
    {
        if (conversation.Last is not { } last || !conversation.HasContract || !conversation.ModeIsKnown)
        {
            return;
        }

        bool isEpr = conversation.IsEpr;
        bool isPps = !isEpr && conversation.Granted is { Kind: PowerObjectKind.Pps };
        if (!isEpr && !isPps)
        {
            return;
        }

        Moment from = last.IsAcknowledged ? Moment.EndOfGoodCrc(last.AcknowledgedUs) : last.End;
        Interval silence = new(isEpr ? TimingLimits.TSourceEPRKeepAlive : TimingLimits.TPPSTimeout, from, to)
        {
            Party = conversation.RolesWereSwapped ? Party.Unsure : Party.Source,
            Awaited = Awaited.ResetAfterSilence,
            Index = index,
            Bounds = Bounds.Max,
            IsProven = false,
            IsToldWhenOpen = ending is null,
        };
        if (ending is not { } delivery)
        {
            listener.OnElapsed(silence);
            return;
        }

        silence = silence with
        {
            LateAllowanceUs = ExchangeFollower.LostAttempts(delivery),
            IsProven = delivery.Continuity == Continuity.Continuous,
            Awaits = (SopKind.Sop, !delivery.FromSourceOrPlug),
        };
        listener.OnElapsed(silence);
        bool isKeepAlive = delivery.Kind == MessageKind.ExtendedControl && delivery.Detail == (int)ExtendedControlType.EprKeepAlive;
        if (isEpr && (isKeepAlive || !delivery.FromSourceOrPlug))
        {
            listener.OnElapsed(silence with
            {
                Parameter = TimingLimits.TSinkEPRKeepAlive,
                Party = conversation.PartyOf(delivery),
                Awaited = Awaited.EprKeepAlive,
            });
        }
    }

    // Above vSafe5V the contract is surely in force; at 5 V default power may be.
    private bool IsHeld(int millivolts) => millivolts > Electrical.Safe5VMaximum.Millivolts
        || (conversation.GrantedVoltage is { } granted && granted <= Electrical.Safe5VMaximum && millivolts > Electrical.Safe0VMaximum.Millivolts);

    // A Soft_Reset this long after a message without a GoodCRC is about something else. Common practice, no source.
    private const long OtherReasonAfterUs = 100_000;

    private void AfterFailure(in Delivery delivery)
    {
        if (_failed is { } failed && delivery.Kind == MessageKind.SoftReset
            && failed.FromSourceOrPlug == delivery.FromSourceOrPlug
            && delivery.FirstUs - failed.LastUs < OtherReasonAfterUs)
        {
            listener.OnElapsed(new Interval(TimingLimits.TSoftReset, failed.End, delivery.Start)
            {
                Party = conversation.PartyOf(delivery), Awaited = Awaited.SoftReset,
                Index = delivery.Index, Bounds = Bounds.Max,
                AllowedUs = RetryTimes.MaxReceiveUs, LateAllowanceUs = ExchangeFollower.LostAttempts(delivery),
            });
        }

        _failed = null;
    }
}
