using System.Text;
using System.Text.Unicode;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.JsonLines;

/// <summary>Reads the open capture format, version 1 (captures/FORMAT.md).</summary>
/// <param name="sink">Receives what is found.</param>
/// <param name="faults">Receives what cannot be used.</param>
/// <param name="wanted">The port that is wanted from a capture of several; null for the header's.</param>
internal sealed class JsonLinesReader(ICaptureSink sink, FaultLog faults, string? wanted) : ILineReader
{
    private readonly RecordLine _record = new(faults);
    private readonly PlainMessage _plain = new();
    private RecordedPorts? _ports;
    private long _timeUs;
    private bool _headerSeen;
    private bool _stopped;

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        if (_stopped)
        {
            return;
        }

        if (_headerSeen && _plain.TryRead(line, text, out MessageRecord message))
        {
            TakeTime(line, message.TimeUs);
            if (_ports is null || _ports.Takes(null))
            {
                sink.OnMessage(message.TimeUs == _timeUs ? message : message with { TimeUs = _timeUs });
            }
        }
        else if (!Utf8.IsValid(text))
        {
            faults.Report(line, FirstInvalid(text) + 1, FaultCodes.NotUtf8, FaultText.InvalidUtf8);
        }
        else if (HeaderLine.Is(text))
        {
            ReadHeader(line, text);
        }
        else if (_record.Parse(line, text))
        {
            NeedHeader(line);
            HandOn(line);
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line)
    {
    }

    /// <inheritdoc/>
    public void Complete()
    {
        NeedHeader(line: 1);
        _ports?.Complete(faults);
    }

    private void ReadHeader(long line, ReadOnlySpan<byte> text)
    {
        if (_headerSeen)
        {
            _stopped = true;
            faults.Report(line, 1, FaultCodes.HeaderMisplaced, FaultText.HeaderMisplaced);
            return;
        }

        HeaderLine header = new(faults);
        CaptureHeader stated = header.Parse(line, text);
        _headerSeen = true;
        _stopped = !header.IsVersionKnown;
        if (!stated.Ports.IsEmpty)
        {
            _ports = new RecordedPorts(stated, wanted);
            _record.OfSeveralPorts = true;
            stated = stated with { Port = _ports.Read };
        }

        sink.OnHeader(stated);
    }

    private void NeedHeader(long line)
    {
        if (!_headerSeen)
        {
            _headerSeen = true;
            faults.Report(line, 1, FaultCodes.HeaderMissing, FaultText.HeaderMissing);
            sink.OnHeader(new CaptureHeader { Format = "capture" });
        }
    }

    private void TakeTime(long line, long time)
    {
        if (time < _timeUs)
        {
            faults.Report(line, 1, FaultCodes.TimeBackwards, FaultText.TimeBackwards);
        }

        _timeUs = Math.Max(time, _timeUs);
    }

    private void HandOn(long line)
    {
        if (_record.TimeUs is long time)
        {
            TakeTime(line, time);
        }

        ReadOnlySpan<byte> extra = _record.Extra;
        if (_ports is not null && !_ports.Takes(_record.Port))
        {
            HandOnEvents(line, null, isOwn: false);
            return;
        }

        if (_record.HasMessage)
        {
            sink.OnMessage(new MessageRecord
            {
                TimeUs = _timeUs,
                Line = line,
                Sop = _record.Sop,
                Bytes = _record.Bytes,
                Known = _record.Known,
                Crc = _record.Crc,
                CrcOk = _record.CrcOk,
                Quality = _record.Quality,
                Extra = extra,
            });
            extra = [];
        }

        HandOnOthers(line, extra.IsEmpty ? null : Encoding.UTF8.GetString(extra));
    }

    /// <summary>A line may state several things; members without a meaning go with the first.</summary>
    private void HandOnOthers(long line, string? extra)
    {
        if (_record.BrokenAt(_timeUs, line) is { } broken)
        {
            sink.OnBrokenFrame(broken with { Extra = extra });
            extra = null;
        }

        if (_record.Signal is SignalKind signal)
        {
            sink.OnSignal(new SignalRecord(_timeUs, line, signal) { Quality = _record.Quality, Extra = extra });
            extra = null;
        }

        if (_record.VbusMillivolts is not null || _record.IbusMilliamperes is not null)
        {
            sink.OnMeasurement(
                new MeasurementRecord(_timeUs, line, _record.VbusMillivolts, _record.IbusMilliamperes) { Extra = extra });
            extra = null;
        }

        HandOnEvents(line, extra, isOwn: true);
    }

    private void HandOnEvents(long line, string? extra, bool isOwn)
    {
        HandOnEvent(line, _record.Event, _record.Value, isOwn, ref extra);
        HandOnEvent(line, _record.Rp is null ? null : CaptureEvents.Rp, _record.Rp, isOwn, ref extra);
        HandOnEvent(line, _record.DataLine is null ? null : CaptureEvents.DataLine, _record.DataLine, isOwn, ref extra);
    }

    private void HandOnEvent(long line, string? name, string? value, bool isOwn, ref string? extra)
    {
        if (name is not null && (isOwn || RecordedPorts.IsOfTheBench(name)))
        {
            string? port = _ports is null ? _record.Port : _ports.PortOf(_record.Port);
            sink.OnEvent(new EventRecord(_timeUs, line, name, port, value) { Extra = extra });
            extra = null;
        }
    }

    private static int FirstInvalid(ReadOnlySpan<byte> text)
    {
        int at = 0;
        while (Rune.DecodeFromUtf8(text[at..], out _, out int length) == System.Buffers.OperationStatus.Done)
        {
            at += length;
        }

        return at;
    }
}
