using Portwitness.Analysis.Measuring;
using Portwitness.Captures;
using Portwitness.Following.Contracts;
using Portwitness.Following.Links;
using Portwitness.Following.States;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Cuts what is measured into segments by what VBUS has to be, and has the VBUS rules judge each when it ends. What the
/// capture does not show (a contract before its begin, a swap of roles, a test mode) has no segment.
/// </summary>
internal sealed class VbusFollower(CaptureContext context) : ICaptureFollower
{
    private readonly VbusReport _report = new(context);
    private VbusSegment? _segment;
    private VbusRemoval? _removal;
    private readonly VbusBeforeAttach _cold = new();
    private long? _accepted;
    private (int? Position, Voltage? Volts, Current? Amperes, Power? Watts, bool InEprMode, OfferedObject? Selected) _asked;
    private VbusTerms? _terms;
    private bool _isRenewal;
    private bool _recordsAttach;
    private bool _beforeContract;
    private PowerMode? _mode;

    // The request that the segment's terms are of; no contract before the first one.
    private long _request = PortState.NoContract;
    private long _lastIndex;

    // Records of one time are one sample.
    private (long TimeUs, int? Millivolts, int? Milliamperes)? _pending;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        AddPending();
        if (message.Sop == SopKind.Sop && message.CrcOk != false && message.Kind != MessageKind.GoodCRC)
        {
            OnSaid(message);
        }

        // Accept and PS_RDY of what the capture does not show mean another contract.
        bool isOther = message.Kind == MessageKind.Accept || message.Kind == MessageKind.PSRDY;
        Doubt(message.TimeUs, mayGoOn: !isOther);
    }

    private void OnSaid(in HeardMessage message)
    {
        _lastIndex = message.Index;
        if (_removal is { IsHardReset: false })
        {
            // Somebody is there again, and the attach was not recorded.
            _removal = null;
        }

        ContractTracker contracts = context.Contracts;
        long? openIndex = contracts.OpenIndex;
        if (MakesVbusUnknown(message.Kind))
        {
            Leave(SegmentEnd.Unknown, message.TimeUs);
            _beforeContract = false;
        }
        else if (contracts.IsAccepted && openIndex != _accepted)
        {
            OnAccepted(contracts.Open!.Value);
        }
        else if (_accepted is not null && openIndex != _accepted)
        {
            OnSettled(message);
        }
        else if (message.Kind == MessageKind.SourceCapabilities && message.FromSourceOrPlug && _beforeContract && _segment is null)
        {
            CloseRemoval();
            _request = PortState.NoContract;
            _segment = Begin(VbusTerms.BeforeContract, null, message.TimeUs, message.Index);
            _segment.OnReady(message.TimeUs);
        }

        _mode = context.Track.Mode;
    }

    /// <inheritdoc/>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        // It may have been an Accept after which VBUS rightly moved.
        AddPending();
        Doubt(frame.TimeUs, mayGoOn: true);
    }

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal)
    {
        AddPending();
        if (signal.Kind != SignalKind.HardReset)
        {
            return;
        }

        VbusSegment? before = _segment is { MessagesMissing: false, Arrived: true, ReadyUs: not null } ? _segment : null;
        Leave(SegmentEnd.HardReset, signal.TimeUs);
        context.Interruptions.OnHardReset(signal.TimeUs);
        _removal = Removal(signal.TimeUs, isHardReset: true, before);
        _mode = PowerMode.Spr;
        _beforeContract = true;
    }

    /// <inheritdoc/>
    public void OnMeasurement(MeasurementRecord measurement)
    {
        if (_pending is { } pending && pending.TimeUs == measurement.TimeUs
            && (pending.Millivolts is null || measurement.VbusMillivolts is null)
            && (pending.Milliamperes is null || measurement.IbusMilliamperes is null))
        {
            _pending = (pending.TimeUs, measurement.VbusMillivolts ?? pending.Millivolts, measurement.IbusMilliamperes ?? pending.Milliamperes);
            return;
        }

        AddPending();
        _pending = (measurement.TimeUs, measurement.VbusMillivolts, measurement.IbusMilliamperes);
    }

    /// <inheritdoc/>
    public void OnEvent(EventRecord happened)
    {
        AddPending();
        if (happened.Name is not (CaptureEvents.Attach or CaptureEvents.Detach))
        {
            return;
        }

        if (!context.IsOwnAttachOrDetach(happened))
        {
            _segment?.OnNeighbour();
            return;
        }

        Leave(SegmentEnd.Detached, happened.TimeUs);
        context.Interruptions.Forget();
        if (happened.Name == CaptureEvents.Attach)
        {
            _cold.OnAttach(happened.TimeUs, context.Instrument);
        }
        else
        {
            _cold.OnDetach(happened.TimeUs);
        }

        _recordsAttach = true;
        _beforeContract = happened.Name == CaptureEvents.Attach;
        _removal = _beforeContract ? null : Removal(happened.TimeUs, isHardReset: false);
        _mode = PowerMode.Spr;
    }

    /// <inheritdoc/>
    public void Complete()
    {
        AddPending();
        Leave(SegmentEnd.CaptureEnded, long.MaxValue);
        context.Interruptions.Complete();
        if (_lastIndex > 0)
        {
            _report.Judge(_cold, context.Arrangement.InUse);
        }
    }

    // Role swaps make the partner the source; test modes leave power open.
    private static bool MakesVbusUnknown(MessageKind kind) =>
        kind == MessageKind.PRSwap || kind == MessageKind.FRSwap || kind == MessageKind.BIST;

    // Whether the partner supplies VBUS, or may.
    private bool PartnerIsSource => context.Track.States.RolesSwapped != false;

    // Where another contract may be in force, or on its way, what VBUS does from the doubt on proves nothing. What was in force is
    // watched on as long as it may be.
    private void Doubt(long timeUs, bool mayGoOn)
    {
        if (_segment is not { MessagesMissing: false } segment || context.Track.States.Target == _request)
        {
            return;
        }

        segment.MessagesMissing = segment.LastOutsideUs >= context.Track.UncertainSinceUs;
        EndSegment(SegmentEnd.Unknown, timeUs);
        context.Interruptions.Forget();
        (_accepted, _beforeContract) = (null, false);
        if (mayGoOn && segment is { ReadyUs: not null, Terms.Kind: not null })
        {
            _segment = Begin(segment.Terms, null, timeUs, segment.MessageIndex);
            _segment.MessagesMissing = true;
            _segment.OnReady(timeUs);
        }
    }

    private void OnAccepted(in ContractAttempt open)
    {
        CloseRemoval();
        OfferedObject? selected = open.ObjectPosition is { } position && position >= 1 && position <= context.Contracts.InForce.Length
            ? context.Contracts.InForce[position - 1]
            : null;
        VbusTerms? terms = TermsOf(open, selected);
        (_accepted, _request) = (open.MessageIndex, open.MessageIndex);
        _beforeContract = false;

        // Asked for once more, as PPS has to be: nothing changes.
        _isRenewal = terms is not null && _segment is { ReadyUs: not null } && _segment.Terms == terms;
        if (_isRenewal)
        {
            return;
        }

        VbusTerms? before = _segment is { ReadyUs: not null, MessagesMissing: false } ? _segment.Terms : null;
        EndSegment(SegmentEnd.Replaced, open.AcceptedUs!.Value);
        if (terms is not null && !PartnerIsSource)
        {
            _segment = Begin(terms, before, open.AcceptedUs!.Value, open.MessageIndex);
        }
        else
        {
            context.Interruptions.Forget();
        }
    }

    // A contract that is renewed again and again has the terms that it had.
    private VbusTerms? TermsOf(in ContractAttempt contract, OfferedObject? selected)
    {
        var asked = (contract.ObjectPosition, contract.Voltage, contract.Current, contract.Power, contract.InEprMode, selected);
        if (_asked != asked)
        {
            (_asked, _terms) = (asked, VbusTerms.Of(contract, selected));
        }

        return _terms;
    }

    // The accepted request is settled: by PS_RDY, or because something came between.
    private void OnSettled(in HeardMessage message)
    {
        bool isReady = message.Kind == MessageKind.PSRDY && message.FromSourceOrPlug;
        _accepted = null;
        if (_isRenewal)
        {
            return;
        }

        if (isReady)
        {
            _segment?.OnReady(message.TimeUs);
        }
        else
        {
            Leave(SegmentEnd.Unknown, message.TimeUs);
        }
    }

    private VbusSegment Begin(VbusTerms terms, VbusTerms? before, long timeUs, long messageIndex) =>
        new(terms, before, context.Instrument, timeUs, messageIndex)
        {
            InUse = context.Arrangement.InUse,
            Editions = context.Facts.Editions,
            RecordsAttach = _recordsAttach,
        };

    private VbusRemoval Removal(long timeUs, bool isHardReset, VbusSegment? before = null) => new(context.Instrument, timeUs, isHardReset)
    {
        LeastBefore = before?.LeastAllowed,
        LoadIsKnown = before?.LoadIsWithin == true,

        InUse = context.Arrangement.InUse,
        MessageIndex = _lastIndex,
        InEprMode = _mode is { } mode ? mode == PowerMode.Epr : null,
        RecordsAttach = _recordsAttach,
        Editions = context.Facts.Editions,
    };

    private void AddPending()
    {
        if (_pending is { Millivolts: { } millivolts } pending)
        {
            Sample sample = new(pending.TimeUs, millivolts, pending.Milliamperes);
            _segment?.Add(sample);
            _removal?.Add(sample);
            _cold.Add(sample);
            FollowInterruptions(sample);
        }

        _pending = null;
    }

    // Behind a cable what the cable may lose excuses the source.
    private void FollowInterruptions(Sample sample)
    {
        if (PartnerIsSource || _segment is { CurrentFlowsIn: true } or { MessagesMissing: true } or { Terms.Kind: not null, LeastAllowed: null })
        {
            context.Interruptions.Forget();
            return;
        }

        int lost = context.Instrument.Point == MeasuringPoint.Source ? 0 : VbusLimits.CableDrop.Millivolts;
        context.Interruptions.Add(
            sample, context.Instrument.OfVoltage(sample.Millivolts), _segment?.LeastAllowed - lost, _segment?.Terms,
            _segment?.Overload.IsAny == true, VbusLimits.Safe5V.Minimum.Millivolts - lost);
    }

    private void Leave(SegmentEnd end, long timeUs)
    {
        CloseRemoval();
        EndSegment(end, timeUs);
        _accepted = null;
        if (end == SegmentEnd.Unknown)
        {
            context.Interruptions.Forget();
        }
    }

    private void EndSegment(SegmentEnd end, long timeUs)
    {
        if (_segment is { } segment)
        {
            _segment = null;
            segment.Close(end, timeUs);
            if (segment.Measured is { } measured)
            {
                context.Contracts.OnMeasured(segment.MessageIndex, measured, segment.MeasuredOverTime);
            }

            _report.Judge(segment);
        }
    }

    private void CloseRemoval()
    {
        if (_removal is { } removal)
        {
            _removal = null;
            removal.Close();
            _report.Judge(removal);
        }
    }
}
