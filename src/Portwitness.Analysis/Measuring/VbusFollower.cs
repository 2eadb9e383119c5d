using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Profile;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Measuring;

/// <summary>
/// Cuts what is measured into segments by what VBUS has to be, and has the VBUS rules judge each when it ends. What the
/// capture does not show (a contract before its begin, a swap of roles, a test mode) has no segment.
/// </summary>
internal sealed class VbusFollower(CaptureContext context) : ICaptureFollower
{
    private readonly MessageIdWatch _ids = new();
    private readonly VbusReport _report = new(context);
    private Instrument? _instrument;
    private VbusSegment? _segment;
    private VbusRemoval? _removal;
    private ContractAttempt? _accepted;
    private bool _isRenewal;
    private bool _recordsAttach;
    private bool _swapAsked;
    private bool _vconnSwapping;
    private bool _partnerIsSource;
    private bool _beforeContract;
    private bool _inEprMode;
    private long _lastIndex;

    // Records of one time are one sample.
    private (long TimeUs, int? Millivolts, int? Milliamperes)? _pending;

    private Instrument Instrument => _instrument ??= new Instrument(
        context.Header?.MeasuredAt ?? MeasuringPoint.Unknown, context.Header?.Accuracy, context.Header?.ResolutionUs);

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        TakePending();
        if (message.Sop != SopKind.Sop || message.CrcOk == false || message.Kind == MessageKind.GoodCRC)
        {
            return;
        }

        _lastIndex = message.Index;
        if (message.HeaderKnown == ushort.MaxValue && _ids.Misses(message.View.Header) && _segment is { } doubtful)
        {
            doubtful.MessagesMissing = true;
        }

        if (_removal is { IsHardReset: false })
        {
            // Somebody is there again, and the attach was not recorded.
            _removal = null;
        }

        FollowRoles(message.Kind);
        ContractAttempt? open = context.Contracts.Open;
        if (MakesVbusUnknown(message.Kind))
        {
            Leave(SegmentEnd.Unknown, message.TimeUs);
            _beforeContract = false;
        }
        else if (open is { Outcome: ContractOutcome.Accepted } && open.MessageIndex != _accepted?.MessageIndex)
        {
            OnAccepted(open);
        }
        else if (_accepted is not null && open?.MessageIndex != _accepted.MessageIndex)
        {
            OnSettled(message);
        }
        else if (message.Kind == MessageKind.PSRDY && message.FromSourceOrPlug && _accepted is null)
        {
            OnUnexpectedReady(message.TimeUs);
        }
        else if (message.Kind == MessageKind.SourceCapabilities && message.FromSourceOrPlug && _beforeContract && _segment is null)
        {
            CloseRemoval();
            _segment = Begin(VbusTerms.BeforeContract, null, message.TimeUs, message.Index);
            _segment.OnReady(message.TimeUs);
        }

        _inEprMode = context.Contracts.IsEprMode;
    }

    /// <inheritdoc/>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        // It may have been an Accept after which VBUS rightly moved.
        TakePending();
        if (frame.MayBe(SopKind.Sop) && _segment is { } segment)
        {
            segment.MessagesMissing = true;
        }
    }

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal)
    {
        TakePending();
        if (signal.Kind != SignalKind.HardReset)
        {
            return;
        }

        Leave(SegmentEnd.HardReset, signal.TimeUs);
        context.Interruptions.OnHardReset(signal.TimeUs);
        _removal = Removal(signal.TimeUs, isHardReset: true);
        (_inEprMode, _partnerIsSource) = (false, false);
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

        TakePending();
        _pending = (measurement.TimeUs, measurement.VbusMillivolts, measurement.IbusMilliamperes);
    }

    /// <inheritdoc/>
    public void OnEvent(EventRecord happened)
    {
        TakePending();
        if (happened.Name is not (CaptureEvents.Attach or CaptureEvents.Detach)
            || (happened.Port is { } port && port != context.Port))
        {
            return;
        }

        Leave(SegmentEnd.Detached, happened.TimeUs);
        context.Interruptions.Forget();
        _recordsAttach = true;
        _beforeContract = happened.Name == CaptureEvents.Attach;
        _removal = _beforeContract ? null : Removal(happened.TimeUs, isHardReset: false);
        (_inEprMode, _partnerIsSource) = (false, false);
    }

    /// <inheritdoc/>
    public void Complete()
    {
        TakePending();
        Leave(SegmentEnd.CaptureEnded, long.MaxValue);
        context.Interruptions.Complete();
    }

    // Role swaps make the partner the source; test modes leave power open.
    private static bool MakesVbusUnknown(MessageKind kind) =>
        kind == MessageKind.PRSwap || kind == MessageKind.FRSwap || kind == MessageKind.BIST;

    // PS_RDY of the side that now gives VCONN says nothing of VBUS; of another one the request was not seen.
    private void OnUnexpectedReady(long timeUs)
    {
        if (!_vconnSwapping)
        {
            Leave(SegmentEnd.Unknown, timeUs);
        }

        _vconnSwapping = false;
    }

    private void FollowRoles(MessageKind kind)
    {
        _vconnSwapping = kind == MessageKind.VCONNSwap || (_vconnSwapping && kind != MessageKind.Reject && kind != MessageKind.Wait);
        _partnerIsSource ^= _swapAsked && kind == MessageKind.Accept;
        _swapAsked = kind == MessageKind.PRSwap || kind == MessageKind.FRSwap;
    }

    private void OnAccepted(ContractAttempt open)
    {
        CloseRemoval();
        OfferedObject? selected = open.ObjectPosition is { } position && position >= 1 && position <= context.Contracts.InForce.Length
            ? context.Contracts.InForce[position - 1]
            : null;
        VbusTerms? terms = VbusTerms.Of(open, selected);
        _accepted = open;
        _beforeContract = false;

        // Asked for once more, as PPS has to be: nothing changes.
        _isRenewal = terms is not null && _segment is { ReadyUs: not null } && _segment.Terms == terms;
        if (_isRenewal)
        {
            return;
        }

        VbusTerms? before = _segment is { ReadyUs: not null, MessagesMissing: false } ? _segment.Terms : null;
        EndSegment(SegmentEnd.Replaced, open.AcceptedUs!.Value);
        if (terms is not null && !_partnerIsSource)
        {
            _segment = Begin(terms, before, open.AcceptedUs!.Value, open.MessageIndex);
        }
        else
        {
            context.Interruptions.Forget();
        }
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
        new(terms, before, Instrument, timeUs, messageIndex)
        {
            InUse = context.Arrangement.InUse,
            Editions = context.Facts.Editions,
            RecordsAttach = _recordsAttach,
        };

    private VbusRemoval Removal(long timeUs, bool isHardReset) => new(Instrument, timeUs, isHardReset)
    {
        InUse = context.Arrangement.InUse,
        MessageIndex = _lastIndex,
        InEprMode = _inEprMode ? true : _recordsAttach ? false : null,
        RecordsAttach = _recordsAttach,
        Editions = context.Facts.Editions,
    };

    private void TakePending()
    {
        if (_pending is { Millivolts: { } millivolts } pending)
        {
            Sample sample = new(pending.TimeUs, millivolts, pending.Milliamperes);
            _segment?.Take(sample);
            _removal?.Take(sample);
            FollowInterruptions(sample);
        }

        _pending = null;
    }

    // Behind a cable what the cable may lose excuses the source.
    private void FollowInterruptions(Sample sample)
    {
        if (_partnerIsSource || _segment is { CurrentFlowsIn: true } or { MessagesMissing: true } or { Terms.Kind: not null, LeastAllowed: null })
        {
            context.Interruptions.Forget();
            return;
        }

        int lost = Instrument.Point == MeasuringPoint.Source ? 0 : VbusLimits.CableDrop.Millivolts;
        context.Interruptions.Take(
            sample, Instrument.OfVoltage(sample.Millivolts), _segment?.LeastAllowed - lost, _segment?.Terms.Text ?? "",
            _segment?.Overload.IsAny == true, VbusLimits.Safe5V.Minimum.Millivolts - lost);
    }

    private void Leave(SegmentEnd end, long timeUs)
    {
        CloseRemoval();
        EndSegment(end, timeUs);
        _accepted = null;
        if (end != SegmentEnd.Unknown)
        {
            _ids.Reset();
        }
        else
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
                context.Contracts.OnMeasured(segment.MessageIndex, measured);
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
