using Portwitness.Captures.Input;

namespace Portwitness.Captures.KernelLog;

/// <summary>
/// Reads the log that the Linux kernel keeps of a USB-C port, of every kernel that has one. It shows headers, the
/// numbers of capability lists and of requests, and events; bits that it does not show are unknown, not zero.
/// </summary>
internal sealed class KernelLogReader(ICaptureSink sink, FaultLog faults) : ILineReader
{
    private readonly LoggedExchange _exchange = new(sink, faults);
    private readonly PortEvents _events = new();
    private long? _startUs;
    private bool _headerSent;
    private bool _recognized;
    private bool _requestAbove;

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        SendHeader();
        bool requestAbove = _requestAbove;
        _requestAbove = false;
        int mark = text.Length - text.TrimStart("> \t|"u8).Length;
        text = text[mark..];
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
                line, mark + start + cursor.Position + 1, FaultCodes.LogLineUnreadable, FaultText.LogUnreadable(cursor.Rest));
            if (!text[start..].StartsWith("PDO "u8))
            {
                // What this line began or ended is not known. A capability line only leaves its own object unknown.
                _exchange.Interrupt();
            }
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line)
    {
        SendHeader();
        _exchange.Interrupt();
    }

    /// <inheritdoc/>
    public void Complete()
    {
        SendHeader();
        _exchange.Interrupt();
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
            return _exchange.Capability(ref cursor, line);
        }

        if (cursor.Literal("PD RX, header: "u8))
        {
            LineOutcome outcome = _exchange.Received(ref cursor, line, timeUs, out bool attached);
            _events.IsAttached |= attached;
            return outcome;
        }

        if (cursor.Literal("PD TX, header: "u8))
        {
            return _exchange.Sent(ref cursor, line, timeUs);
        }

        if (cursor.Literal("PD TX, type: "u8))
        {
            return _exchange.SentSignal(ref cursor, line, timeUs);
        }

        if (cursor.Literal("PD TX complete, status: "u8))
        {
            return _exchange.SentStatus(ref cursor, line, timeUs);
        }

        if (cursor.Literal("Rx VDM cmd "u8))
        {
            return _exchange.VendorDefined(ref cursor, line);
        }

        if (cursor.Rest.StartsWith("Requesting PDO "u8) || cursor.Rest.StartsWith("Requesting APDO "u8))
        {
            cursor.Literal("Requesting "u8);
            LineOutcome outcome = _exchange.Request(ref cursor);
            _requestAbove = outcome == LineOutcome.Used;
            return outcome;
        }

        return KernelLogLine.MentionsMessages(cursor.Rest) ? LineOutcome.Unreadable : Others(ref cursor, line, timeUs);
    }

    private LineOutcome Others(ref LogCursor cursor, long line, long timeUs)
    {
        if (cursor.Rest.SequenceEqual("Received hard reset"u8))
        {
            _exchange.Signal(line, timeUs, SignalKind.HardReset);
            return LineOutcome.Used;
        }

        if (cursor.Rest.SequenceEqual("overflow"u8))
        {
            _exchange.Interrupt();
            faults.Report(line, 1, FaultCodes.LogOverflow, FaultText.LogOverflow);
            return LineOutcome.Ignored;
        }

        LineOutcome outcome = _events.Read(ref cursor);
        foreach ((string name, string? value) in _events.Found)
        {
            if (name is CaptureEvents.Attach or CaptureEvents.Detach)
            {
                _exchange.ForgetRequest();
            }

            _exchange.Event(line, timeUs, name, value);
        }

        return outcome;
    }

    private void ReadUntimed(long line, ReadOnlySpan<byte> text, bool requestAbove)
    {
        if (KernelLogLine.IsListing(text))
        {
            faults.Report(line, 1, FaultCodes.LogListingUnsupported, FaultText.LogListingUnsupported);
        }
        else if (KernelLogLine.MentionsMessages(text))
        {
            ReportUntimed(line, FaultText.LogUnprefixed);
        }
        else if (requestAbove)
        {
            ReportUntimed(line, FaultText.LogWrapped);
        }
    }

    private void ReportUntimed(long line, string detail)
    {
        _exchange.Interrupt();
        faults.Report(line, 1, FaultCodes.LogLineUnreadable, detail);
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
