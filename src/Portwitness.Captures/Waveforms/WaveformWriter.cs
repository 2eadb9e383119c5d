using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Waveforms;

/// <summary>
/// Writes captures as what an instrument on the CC line would have recorded: sends every message and reset at its time. What is
/// not on that line has no place there.
/// </summary>
public abstract class WaveformWriter : ICaptureWriter
{
    /// <summary>tInterFrameGap (R3.2v1.1, 5.8.1): at least 25 µs between frames.</summary>
    private const long GapPs = 25_000_000;

    // What is recorded after the last frame, so that the line is seen idle.
    private const long AfterPs = 50_000_000;
    private const long PsPerUs = 1_000_000;
    private const int MaxMoved = 100;
    private const int FlushAt = 64 * 1024;

    private readonly Stream _stream;
    private readonly Action<CaptureFault>? _onFault;
    private readonly LineShape _shape;
    private readonly LineTransmitter _transmitter;
    private readonly List<LineEdge> _edges = [];
    private readonly SortedDictionary<string, long> _leftOut = [];
    private readonly List<MovedRecord> _moved = [];
    private MessageMoment _timeOf;
    private long _endPs = -GapPs;
    private bool _begun;

    private protected WaveformWriter(Stream stream, LineShape shape, Action<CaptureFault>? onFault)
    {
        ArgumentNullException.ThrowIfNull(stream);
        (_stream, _shape, _onFault) = (stream, shape, onFault);
        _transmitter = new LineTransmitter(shape);
    }

    /// <inheritdoc/>
    public IReadOnlyDictionary<string, long> LeftOut => _leftOut;

    /// <summary>Frames that would lie closer together than the line allows, or within one another, are sent later.</summary>
    public IReadOnlyList<MovedRecord> Moved => _moved;

    /// <inheritdoc/>
    public long MovedCount { get; private set; }

    /// <summary>What is written next.</summary>
    private protected System.Buffers.ArrayBufferWriter<byte> Output { get; } = new(2 * FlushAt);

    /// <inheritdoc/>
    /// <exception cref="InvalidOperationException">A header was written before.</exception>
    public void OnHeader(CaptureHeader header)
    {
        ArgumentNullException.ThrowIfNull(header);
        if (_begun)
        {
            throw new InvalidOperationException("A capture has one header.");
        }

        (_begun, _timeOf) = (true, header.TimeOf);
        Begin(header.Port, _shape.IdlesHigh);
    }

    /// <summary>Sends a message, with the CRC that was recorded; one of which not all bits are known is left out.</summary>
    public void OnMessage(in MessageRecord message)
    {
        if (message.Known.ContainsAnyExcept(byte.MaxValue))
        {
            LeaveOut("messages");
            return;
        }

        uint right = MessageCrc.Of(message.Bytes);
        uint crc = message.Crc ?? (message.CrcOk == false ? ~right : right);
        Send(FrameEncoder.Encode(message.Sop, message.Bytes, crc), message.TimeUs, "messages");
    }

    /// <summary>Sends a reset.</summary>
    public void OnSignal(SignalRecord signal) => Send(
        FrameEncoder.EncodeReset(signal.Kind == SignalKind.HardReset ? OrderedSetKind.HardReset : OrderedSetKind.CableReset), signal.TimeUs, "signals");

    /// <summary>A part of a frame is no frame.</summary>
    public void OnBrokenFrame(BrokenFrameRecord frame) => LeaveOut("broken frames");

    /// <summary>Measurements are not on the line.</summary>
    public void OnMeasurement(MeasurementRecord measurement) => LeaveOut("measurements");

    /// <summary>Events are not on the line.</summary>
    public void OnEvent(EventRecord happened) => LeaveOut("events");

    /// <inheritdoc/>
    public void OnFault(CaptureFault fault) => _onFault?.Invoke(fault);

    /// <inheritdoc/>
    public void Flush()
    {
        _stream.Write(Output.WrittenSpan);
        Output.ResetWrittenCount();
        _stream.Flush();
    }

    /// <summary>Ends the recording and writes what is held; the stream stays open.</summary>
    public void Dispose()
    {
        if (_begun)
        {
            End(Math.Max(_endPs, 0) + AfterPs);
            _begun = false;
        }

        Flush();
        GC.SuppressFinalize(this);
    }

    private protected abstract void Begin(string? port, bool high);

    /// <summary>Writes the edges of a frame; with the last one the line is released.</summary>
    private protected abstract void Write(IReadOnlyList<LineEdge> edges);

    private protected abstract void End(long timePs);

    private protected void FlushIfFull()
    {
        if (Output.WrittenCount >= FlushAt)
        {
            _stream.Write(Output.WrittenSpan);
            Output.ResetWrittenCount();
        }
    }

    private void Send(byte[] bits, long timeUs, string kind)
    {
        if (!_begun)
        {
            throw new InvalidOperationException("The header comes first.");
        }

        // The receiver's clock ends where the longest capture's may not.
        if (timeUs > CaptureLimits.MaximumTimeUs / 4096)
        {
            LeaveOut(kind);
            return;
        }

        long length = _timeOf == MessageMoment.End ? bits.Length * (1_000_000_000_000L / _shape.BitsPerSecond) : 0;
        long wanted = (timeUs * PsPerUs) - length;
        long start = Math.Max(wanted, _endPs + GapPs);
        Note(kind, timeUs, (start - wanted) / PsPerUs);
        _edges.Clear();
        _endPs = _transmitter.Send(bits, start, _edges);
        Write(_edges);
    }

    // A capture tells microseconds; less is no change of its time.
    private void Note(string kind, long timeUs, long laterUs)
    {
        if (laterUs > 0 && MovedCount++ < MaxMoved)
        {
            _moved.Add(new MovedRecord(kind, timeUs, timeUs + laterUs));
        }
    }

    private void LeaveOut(string kind) => _leftOut[kind] = _leftOut.GetValueOrDefault(kind) + 1;
}
