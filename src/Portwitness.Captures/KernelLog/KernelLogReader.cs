using Portwitness.Captures.Input;

namespace Portwitness.Captures.KernelLog;

/// <summary>
/// Reads the log that the Linux kernel keeps of a USB-C port, of every kernel that has one. It shows headers, the
/// numbers of capability lists and of requests, and events; bits that it does not show are unknown, not zero.
/// </summary>
internal sealed class KernelLogReader(ICaptureSink sink, FaultLog faults) : ILineReader
{
    private const int MaxHeldBytes = 1_000;

    private readonly LoggedExchange _exchange = new(sink, faults);
    private readonly PortEvents _events = new();
    private long? _startUs;
    private bool _headerSent;
    private bool _recognized;
    private bool _requestAbove;
    private HeldLine? _begun;
    private HeldLine? _cut;
    private HeldLine? _last;

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        SendHeader();
        int mark = text.Length - text.TrimStart("> \t|"u8).Length;
        HeldLine read = _begun is { } begun ? begun with { Text = [.. begun.Text, .. text] } : new HeldLine(line, mark, text[mark..].ToArray(), 0);
        _begun = null;
        if (QuotedPrintable.GoesOn(read.Text) && read.Text.Length <= MaxHeldBytes)
        {
            _begun = read with { Text = read.Text[..^1] };
            return;
        }

        bool requestAbove = _requestAbove;
        _requestAbove = false;
        text = read.Text.AsSpan().Contains((byte)'=') ? QuotedPrintable.Decode(read.Text).AsSpan().TrimEnd((byte)' ') : read.Text;
        if (KernelLogLine.TryReadTime(text, out long microseconds, out int start))
        {
            GiveUpCut();
            _startUs ??= microseconds;
            Read(read with { Text = text.ToArray(), TimeUs = microseconds - _startUs.Value }, start);
        }
        else if (!TryGoOn(text))
        {
            GiveUpCut();
            ReadUntimed(read.Line, text, requestAbove);
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line)
    {
        SendHeader();
        GiveUpCut();
        _exchange.Interrupt();
    }

    /// <inheritdoc/>
    public void Complete()
    {
        SendHeader();
        GiveUpCut();
        _exchange.Interrupt();
        if (!_recognized)
        {
            faults.Report(0, 0, FaultCodes.LogWithoutRecords, FaultText.LogWithoutRecords);
        }
    }

    // A line that cannot be read may go on in the next one; nothing was done with it.
    private void Read(HeldLine read, int start)
    {
        _last = null;
        LogCursor cursor = new(read.Text.AsSpan(start));
        LineOutcome outcome = Dispatch(ref cursor, read.Line, read.TimeUs);
        _recognized |= outcome == LineOutcome.Used;
        if (outcome == LineOutcome.Unreadable)
        {
            _cut = read with { Start = start, Position = cursor.Position };
        }
        else if (_requestAbove)
        {
            _last = read with { Start = start };
        }
    }

    // Joined with and without the blank that a wrap takes away.
    private bool TryGoOn(ReadOnlySpan<byte> text)
    {
        if (_last is { } request && text.Trim(" \t"u8).SequenceEqual("[mismatch]"u8))
        {
            _last = null;
            Read(request with { Text = [.. request.Text.AsSpan().TrimEnd((byte)' '), .. " [mismatch]"u8] }, request.Start);
            return true;
        }

        _last = null;
        if (_cut is not { } cut || KernelLogLine.MentionsMessages(text) || cut.Text.Length + text.Length > MaxHeldBytes)
        {
            return false;
        }

        foreach (ReadOnlyMemory<byte> between in (ReadOnlySpan<ReadOnlyMemory<byte>>)[" "u8.ToArray(), ReadOnlyMemory<byte>.Empty])
        {
            byte[] joined = [.. cut.Text.AsSpan().TrimEnd((byte)' '), .. between.Span, .. text];
            LogCursor cursor = new(joined.AsSpan(cut.Start));
            LineOutcome outcome = Dispatch(ref cursor, cut.Line, cut.TimeUs);
            bool goesOn = outcome == LineOutcome.Unreadable && cursor.Position > cut.Position;
            if (outcome == LineOutcome.Used || goesOn)
            {
                _recognized |= outcome == LineOutcome.Used;
                _cut = goesOn ? cut with { Text = joined, Position = cursor.Position } : null;
                return true;
            }
        }

        return false;
    }

    private void GiveUpCut()
    {
        if (_cut is not { } cut)
        {
            return;
        }

        _cut = null;
        ReadOnlySpan<byte> rest = cut.Text.AsSpan(cut.Start);
        faults.Report(
            cut.Line, cut.Mark + cut.Start + cut.Position + 1, FaultCodes.LogLineUnreadable, FaultText.LogUnreadable(rest[cut.Position..]));
        if (!rest.StartsWith("PDO "u8))
        {
            // What this line began or ended is not known. A capability line only leaves its own object unknown.
            _exchange.Interrupt();
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
    /// <summary>A line that may go on in the next: its number, bytes of marks in front, text, time, and where it was read to.</summary>
    private readonly record struct HeldLine(long Line, int Mark, byte[] Text, long TimeUs)
    {
        public int Start { get; init; }

        public int Position { get; init; }
    }
}
