using System.Buffers;
using System.Buffers.Binary;
using Portwitness.Captures.Input;
using Portwitness.Captures.Pcapng;

namespace Portwitness.Captures.Measurements;

/// <summary>Holds records in the order in which they came, compactly, until their turn comes.</summary>
internal sealed class RecordHold(ICaptureSink sink)
{
    private const int PrefixBytes = 20;

    private readonly ArrayBufferWriter<byte> _held = new();
    private readonly ArrayBufferWriter<byte> _payload = new();
    private readonly RecordReading _reading = new(sink, new FaultLog(new NoFaults()));
    private int _given;

    /// <summary>Whether nothing is held.</summary>
    public bool IsEmpty => _given == _held.WrittenCount;

    /// <summary>The time of the next record.</summary>
    public long NextTimeUs => BinaryPrimitives.ReadInt64LittleEndian(_held.WrittenSpan[_given..]);

    public void Add(in MessageRecord message)
    {
        RecordPayload.Write(_payload, message);
        Keep(message.TimeUs, message.Line);
    }

    public void Add(SignalRecord signal)
    {
        RecordPayload.Write(_payload, signal);
        Keep(signal.TimeUs, signal.Line);
    }

    public void Add(BrokenFrameRecord frame)
    {
        FramePayload.Write(_payload, frame);
        Keep(frame.TimeUs, frame.Line);
    }

    public void Add(MeasurementRecord measurement)
    {
        RecordPayload.Write(_payload, measurement);
        Keep(measurement.TimeUs, measurement.Line);
    }

    public void Add(EventRecord happened)
    {
        RecordPayload.Write(_payload, happened);
        Keep(happened.TimeUs, happened.Line);
    }

    /// <summary>Hands the next record on.</summary>
    public void Give()
    {
        ReadOnlySpan<byte> rest = _held.WrittenSpan[_given..];
        int length = BinaryPrimitives.ReadInt32LittleEndian(rest[16..]);
        _reading.Read(
            rest.Slice(PrefixBytes, length), BinaryPrimitives.ReadInt64LittleEndian(rest), BinaryPrimitives.ReadInt64LittleEndian(rest[8..]), 0);
        _given += PrefixBytes + length;
        if (IsEmpty)
        {
            _held.ResetWrittenCount();
            _given = 0;
        }
    }

    private void Keep(long timeUs, long line)
    {
        Span<byte> prefix = _held.GetSpan(PrefixBytes);
        BinaryPrimitives.WriteInt64LittleEndian(prefix, timeUs);
        BinaryPrimitives.WriteInt64LittleEndian(prefix[8..], line);
        BinaryPrimitives.WriteInt32LittleEndian(prefix[16..], _payload.WrittenCount);
        _held.Advance(PrefixBytes);
        _held.Write(_payload.WrittenSpan);
        _payload.ResetWrittenCount();
    }

    // What is held was reported when it was read.
    private sealed class NoFaults : ICaptureSink
    {
        public void OnHeader(CaptureHeader header)
        {
        }

        public void OnMessage(in MessageRecord message)
        {
        }

        public void OnSignal(SignalRecord signal)
        {
        }

        public void OnMeasurement(MeasurementRecord measurement)
        {
        }

        public void OnEvent(EventRecord happened)
        {
        }

        public void OnFault(CaptureFault fault)
        {
        }
    }
}
