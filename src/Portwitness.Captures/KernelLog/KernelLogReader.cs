using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Captures.KernelLog;

/// <summary>
/// Reads the log that the Linux kernel keeps of a USB-C port, of every kernel that has one. It shows headers, the
/// numbers of capability lists and of requests, and events; bits that it does not show are unknown, not zero.
/// </summary>
internal sealed class KernelLogReader(ICaptureSink sink, FaultLog faults) : ILineReader
{
    private readonly LoggedMessage _open = new();
    private readonly PortEvents _events = new();
    private long? _startUs;
    private long _timeUs;
    private bool _headerSent;
    private bool _isOpen;
    private bool _sentMessage;
    private bool _recognized;
    private ShownWord? _request;
    private bool _requestAbove;

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        SendHeader();
        bool requestAbove = _requestAbove;
        _requestAbove = false;
        if (!KernelLogLine.TryReadTime(text, out long microseconds, out int start))
        {
            ReadUntimed(line, text, requestAbove);
            return;
        }

        _startUs ??= microseconds;
        LogCursor cursor = new(text[start..]);
        LineOutcome outcome = Dispatch(ref cursor, line, microseconds - _startUs.Value);
        _recognized |= outcome == LineOutcome.Used;
        if (outcome == LineOutcome.Unreadable)
        {
            faults.Report(
                line, start + cursor.Position + 1, FaultCodes.LogLineUnreadable, FaultText.LogUnreadable(cursor.Rest));
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line) => _request = null;

    /// <inheritdoc/>
    public void Complete()
    {
        SendHeader();
        Close();
        if (!_recognized)
        {
            faults.Report(0, 0, FaultCodes.LogWithoutRecords, FaultText.LogWithoutRecords);
        }
    }

    private LineOutcome Dispatch(ref LogCursor cursor, long line, long timeUs)
    {
        if (KernelLogLine.IsListing(cursor.Rest))
        {
            faults.Report(line, 1, FaultCodes.LogListingUnsupported, FaultText.LogListingUnsupported);
            return LineOutcome.Ignored;
        }

        if (cursor.Literal("PDO "u8))
        {
            return ReadCapability(ref cursor, line);
        }

        if (cursor.Literal("PD RX, header: "u8))
        {
            return ReadReceived(ref cursor, line, timeUs);
        }

        if (cursor.Literal("PD TX, header: "u8))
        {
            return ReadSent(ref cursor, line, timeUs);
        }

        if (cursor.Literal("PD TX, type: "u8))
        {
            return ReadSentSignal(ref cursor, line, timeUs);
        }

        if (cursor.Literal("PD TX complete, status: "u8))
        {
            return ReadSentStatus(ref cursor, line, timeUs);
        }

        if (cursor.Literal("Received hard reset"u8))
        {
            return HandOnSignal(line, timeUs, SignalKind.HardReset);
        }

        if (cursor.Literal("Rx VDM cmd "u8))
        {
            return ReadVdm(ref cursor, line);
        }

        if (cursor.Rest.StartsWith("Requesting PDO "u8) || cursor.Rest.StartsWith("Requesting APDO "u8))
        {
            return ReadRequest(ref cursor);
        }

        if (cursor.Literal("overflow"u8) && cursor.AtEnd)
        {
            Close();
            _request = null;
            faults.Report(line, 1, FaultCodes.LogOverflow, FaultText.LogOverflow);
            return LineOutcome.Ignored;
        }

        return KernelLogLine.MentionsMessages(cursor.Rest) ? LineOutcome.Unreadable : ReadEvents(ref cursor, line, timeUs);
    }

    private LineOutcome ReadEvents(ref LogCursor cursor, long line, long timeUs)
    {
        LineOutcome outcome = _events.Read(ref cursor);
        if (_events.Found.Count > 0)
        {
            Close();
            long at = Now(line, timeUs);
            _request = _events.Found.Exists(e => e.Name is CaptureEvents.Attach or CaptureEvents.Detach) ? null : _request;
            _events.Found.ForEach(e => sink.OnEvent(new EventRecord(at, line, e.Name, null, e.Value)));
        }

        return outcome;
    }

    private LineOutcome ReadReceived(ref LogCursor cursor, long line, long timeUs)
    {
        if (!cursor.Hex(out uint raw) || raw > ushort.MaxValue || !cursor.Literal(" ["u8)
            || !cursor.Number(out int attached) || !cursor.Literal("]"u8) || !cursor.AtEnd)
        {
            return LineOutcome.Unreadable;
        }

        BeginMessage(raw, line, timeUs);
        _request = null;
        _sentMessage = false;
        if (attached == 0)
        {
            // The kernel looks no further at the message, so nothing else of it is printed.
            HandOnOpen();
            sink.OnEvent(new EventRecord(_timeUs, line, CaptureEvents.Dropped, null, null));
            return LineOutcome.Used;
        }

        _events.IsAttached = true;
        if (_open.Header.Kind != MessageKind.SourceCapabilities && _open.Header.Kind != MessageKind.VendorDefined)
        {
            HandOnOpen();
        }

        return LineOutcome.Used;
    }

    private LineOutcome ReadSent(ref LogCursor cursor, long line, long timeUs)
    {
        if (!cursor.Hex(out uint raw) || raw > ushort.MaxValue || !cursor.AtEnd)
        {
            return LineOutcome.Unreadable;
        }

        BeginMessage(raw, line, timeUs);
        if (_open.Header.Kind == MessageKind.Request && _request is ShownWord request)
        {
            _open.TrySet(0, request.Value, request.Known);
        }

        HandOnOpen();
        _request = null;
        _sentMessage = true;
        return LineOutcome.Used;
    }

    private LineOutcome ReadSentSignal(ref LogCursor cursor, long line, long timeUs)
    {
        // The kernel's numbers for what is sent: 0 to 4 are the SOP kinds, 5 Hard Reset, 6 Cable Reset.
        int before = cursor.Position;
        if (!cursor.Hex(out uint type) || !cursor.AtEnd || type is not (5 or 6))
        {
            cursor.BackTo(before);
            return LineOutcome.Unreadable;
        }

        _sentMessage = false;
        return HandOnSignal(line, timeUs, type == 5 ? SignalKind.HardReset : SignalKind.CableReset);
    }

    private LineOutcome ReadSentStatus(ref LogCursor cursor, long line, long timeUs)
    {
        int before = cursor.Position;
        if (!cursor.Number(out int status) || !cursor.AtEnd || status > 2)
        {
            cursor.BackTo(before);
            return LineOutcome.Unreadable;
        }

        if (status != 0 && _sentMessage)
        {
            Close();
            string name = status == 1 ? CaptureEvents.NotSent : CaptureEvents.NotAcknowledged;
            sink.OnEvent(new EventRecord(Now(line, timeUs), line, name, null, null));
        }

        return LineOutcome.Used;
    }

    private LineOutcome ReadCapability(ref LogCursor cursor, long line)
    {
        if (!cursor.Number(out int index) || !cursor.Literal(": type "u8) || !cursor.Number(out int type)
            || !cursor.Literal(", "u8) || !CapabilityLine.TryRead(ref cursor, type, out ShownWord word))
        {
            return LineOutcome.Unreadable;
        }

        if (!_isOpen || _open.Header.Kind != MessageKind.SourceCapabilities || !_open.TrySet(index, word.Value, word.Known))
        {
            faults.Report(line, 1, FaultCodes.LogLineOrphan, FaultText.ObjectOrphan);
        }
        else if (_open.IsComplete)
        {
            HandOnOpen();
        }

        return LineOutcome.Used;
    }

    private LineOutcome ReadVdm(ref LogCursor cursor, long line)
    {
        if (!cursor.Hex(out uint word) || !cursor.Literal(" type "u8) || !cursor.Number(out _) || !cursor.Literal(" cmd "u8)
            || !cursor.Number(out _) || !cursor.Literal(" len "u8) || !cursor.Number(out _) || !cursor.AtEnd)
        {
            return LineOutcome.Unreadable;
        }

        if (_isOpen && _open.Header.Kind == MessageKind.VendorDefined)
        {
            _open.TrySet(0, word, uint.MaxValue);
            HandOnOpen();
        }
        else
        {
            faults.Report(line, 1, FaultCodes.LogLineOrphan, FaultText.VdmOrphan);
        }

        return LineOutcome.Used;
    }

    private LineOutcome ReadRequest(ref LogCursor cursor)
    {
        cursor.Literal("Requesting "u8);
        bool read = RequestLine.TryRead(ref cursor, out ShownWord word);
        _request = read ? word : null;
        _requestAbove = read;
        return read ? LineOutcome.Used : LineOutcome.Unreadable;
    }

    private void ReadUntimed(long line, ReadOnlySpan<byte> text, bool requestAbove)
    {
        if (KernelLogLine.IsListing(text))
        {
            faults.Report(line, 1, FaultCodes.LogListingUnsupported, FaultText.LogListingUnsupported);
        }
        else if (text.TrimStart(" \t"u8).StartsWith(">"u8))
        {
            faults.Report(line, 1, FaultCodes.LogLineUnreadable, FaultText.LogQuoted);
        }
        else if (KernelLogLine.MentionsMessages(text))
        {
            faults.Report(line, 1, FaultCodes.LogLineUnreadable, FaultText.LogUnprefixed);
        }
        else if (requestAbove)
        {
            _request = null;
            faults.Report(line, 1, FaultCodes.LogLineUnreadable, FaultText.LogWrapped);
        }
    }

    private LineOutcome HandOnSignal(long line, long timeUs, SignalKind kind)
    {
        Close();
        _request = null;
        sink.OnSignal(new SignalRecord(Now(line, timeUs), line, kind));
        return LineOutcome.Used;
    }

    private void BeginMessage(uint raw, long line, long timeUs)
    {
        Close();
        _open.Begin(new MessageHeader((ushort)raw), Now(line, timeUs), line);
        _isOpen = true;
    }

    /// <summary>Ends a message for which more lines could have come.</summary>
    private void Close()
    {
        if (!_isOpen)
        {
            return;
        }

        if (_open.Header.Kind == MessageKind.SourceCapabilities)
        {
            faults.Report(_open.Line, 1, FaultCodes.LogObjectsMissing, FaultText.LogObjectsMissing);
        }

        HandOnOpen();
    }

    private void HandOnOpen()
    {
        _isOpen = false;
        _open.HandTo(sink);
    }

    private long Now(long line, long timeUs)
    {
        if (timeUs < _timeUs)
        {
            faults.Report(line, 1, FaultCodes.TimeBackwards, FaultText.TimeBackwards);
        }

        return _timeUs = Math.Max(_timeUs, timeUs);
    }

    private void SendHeader()
    {
        if (!_headerSent)
        {
            _headerSent = true;
            sink.OnHeader(new CaptureHeader { Format = "kernel-log" });
        }
    }
}
