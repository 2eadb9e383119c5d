using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Captures.KernelLog;

/// <summary>
/// Puts messages together from the lines that show them: a received header and the lines of its objects, or the line
/// of a request and the header that is sent after it. Hands every record on, in order.
/// </summary>
internal sealed class LoggedExchange(ICaptureSink sink, FaultLog faults)
{
    private readonly LoggedMessage _open = new();
    private bool _isOpen;
    private bool _sentMessage;
    private ShownWord? _request;
    private long _timeUs;

    /// <summary>Reads what stands behind "PD RX, header: ".</summary>
    public LineOutcome Received(ref LogCursor cursor, long line, long timeUs, out bool attached)
    {
        attached = false;
        if (!cursor.Hex(out uint raw) || raw > ushort.MaxValue || !cursor.Literal(" ["u8)
            || !cursor.Number(out int flag) || !cursor.Literal("]"u8) || !cursor.AtEnd)
        {
            return LineOutcome.Unreadable;
        }

        Begin(raw, line, timeUs);
        ForgetRequest();
        _sentMessage = false;
        attached = flag != 0;
        if (!attached)
        {
            // The kernel looks no further at the message, so nothing else of it is printed.
            HandOnOpen();
            Event(line, timeUs, CaptureEvents.Dropped, null);
        }
        else if (_open.Header.Kind != MessageKind.SourceCapabilities && _open.Header.Kind != MessageKind.VendorDefined)
        {
            HandOnOpen();
        }

        return LineOutcome.Used;
    }

    /// <summary>Reads a capability line behind "PDO ".</summary>
    public LineOutcome Capability(ref LogCursor cursor, long line)
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

    /// <summary>Reads what stands behind "Rx VDM cmd ".</summary>
    public LineOutcome VendorDefined(ref LogCursor cursor, long line)
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

    /// <summary>Reads what stands behind "Requesting ".</summary>
    public LineOutcome Request(ref LogCursor cursor)
    {
        _request = RequestLine.TryRead(ref cursor, out ShownWord word) ? word : null;
        return _request is null ? LineOutcome.Unreadable : LineOutcome.Used;
    }

    /// <summary>Reads what stands behind "PD TX, header: ".</summary>
    public LineOutcome Sent(ref LogCursor cursor, long line, long timeUs)
    {
        if (!cursor.Hex(out uint raw) || raw > ushort.MaxValue || !cursor.AtEnd)
        {
            return LineOutcome.Unreadable;
        }

        Begin(raw, line, timeUs);
        if (_open.Header.Kind == MessageKind.Request && _request is ShownWord request)
        {
            _open.TrySet(0, request.Value, request.Known);
        }

        HandOnOpen();
        ForgetRequest();
        _sentMessage = true;
        return LineOutcome.Used;
    }

    /// <summary>Reads what stands behind "PD TX, type: ".</summary>
    public LineOutcome SentSignal(ref LogCursor cursor, long line, long timeUs)
    {
        // The kernel's numbers for what is sent: 0 to 4 are the SOP kinds, 5 Hard Reset, 6 Cable Reset.
        int before = cursor.Position;
        if (!cursor.Hex(out uint type) || !cursor.AtEnd || type is not (5 or 6))
        {
            cursor.BackTo(before);
            return LineOutcome.Unreadable;
        }

        Signal(line, timeUs, type == 5 ? SignalKind.HardReset : SignalKind.CableReset);
        return LineOutcome.Used;
    }

    /// <summary>Reads what stands behind "PD TX complete, status: ".</summary>
    public LineOutcome SentStatus(ref LogCursor cursor, long line, long timeUs)
    {
        // The kernel's numbers: 0 success, 1 discarded, 2 failed.
        int before = cursor.Position;
        if (!cursor.Number(out int status) || !cursor.AtEnd || status > 2)
        {
            cursor.BackTo(before);
            return LineOutcome.Unreadable;
        }

        if (status != 0 && _sentMessage)
        {
            Event(line, timeUs, status == 1 ? CaptureEvents.NotSent : CaptureEvents.NotAcknowledged, null);
        }

        return LineOutcome.Used;
    }

    /// <summary>Hands a signal on.</summary>
    public void Signal(long line, long timeUs, SignalKind kind)
    {
        Interrupt();
        _sentMessage = false;
        sink.OnSignal(new SignalRecord(Now(line, timeUs), line, kind));
    }

    /// <summary>Hands an event on.</summary>
    public void Event(long line, long timeUs, string name, string? value)
    {
        Close();
        sink.OnEvent(new EventRecord(Now(line, timeUs), line, name, null, value));
    }

    /// <summary>Says that nothing below belongs to the lines above.</summary>
    public void Interrupt()
    {
        Close();
        ForgetRequest();
    }

    /// <summary>Drops the request line above: the next request is not known to be that one.</summary>
    public void ForgetRequest() => _request = null;

    private void Begin(uint raw, long line, long timeUs)
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
}
