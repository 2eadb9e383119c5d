using System.Buffers;
using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Portwitness.Captures.JsonLines;

namespace Portwitness.Captures.Pcapng;

/// <summary>
/// Writes a capture as pcapng: one section, little-endian, one interface with the port's name and the header as a
/// comment, one Enhanced Packet Block a record with microseconds. Nothing that the records carry is lost.
/// </summary>
/// <remarks>The stream is left open. What is still held is written by <see cref="Flush"/> or <see cref="Dispose"/>.</remarks>
public sealed class PcapngWriter : ICaptureWriter
{
    private const int FlushAt = 64 * 1024;
    private const int MaxNameBytes = 1024;
    private const int PacketBytes = 28;
    private const long MicrosecondsPerSecond = 1_000_000;

    private readonly Stream _stream;
    private readonly Action<CaptureFault>? _onFault;
    private readonly ArrayBufferWriter<byte> _buffer = new(2 * FlushAt);
    private readonly ArrayBufferWriter<byte> _payload = new(4096);
    private bool _headerWritten;
    private long _startUs;

    /// <summary>A writer to a stream.</summary>
    /// <param name="stream">Where the capture goes.</param>
    /// <param name="onFault">Told of each fault of a conversion's input; a capture has no place for them.</param>
    public PcapngWriter(Stream stream, Action<CaptureFault>? onFault = null)
    {
        ArgumentNullException.ThrowIfNull(stream);
        (_stream, _onFault) = (stream, onFault);
    }

    /// <inheritdoc/>
    public IReadOnlyDictionary<string, long> LeftOut => ImmutableDictionary<string, long>.Empty;

    /// <summary>Writes section and interface; must come first, and once.</summary>
    /// <exception cref="InvalidOperationException">A header was written before.</exception>
    public void OnHeader(CaptureHeader header)
    {
        ArgumentNullException.ThrowIfNull(header);
        if (_headerWritten)
        {
            throw new InvalidOperationException("A capture has one header.");
        }

        _headerWritten = true;
        WriteSection();
        WriteInterface(header);
    }

    /// <summary>Writes a message.</summary>
    /// <exception cref="ArgumentException">It has too few or too many bytes, or a mask of another length.</exception>
    public void OnMessage(in MessageRecord message)
    {
        RecordPayload.Write(_payload, message);
        WritePacket(message.TimeUs);
    }

    /// <summary>Writes a signal.</summary>
    public void OnSignal(SignalRecord signal)
    {
        RecordPayload.Write(_payload, signal);
        WritePacket(signal.TimeUs);
    }

    /// <summary>Writes a frame that broke.</summary>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        FramePayload.Write(_payload, frame);
        WritePacket(frame.TimeUs);
    }

    /// <summary>Writes a measurement.</summary>
    public void OnMeasurement(MeasurementRecord measurement)
    {
        RecordPayload.Write(_payload, measurement);
        WritePacket(measurement.TimeUs);
    }

    /// <summary>Writes an event.</summary>
    public void OnEvent(EventRecord happened)
    {
        RecordPayload.Write(_payload, happened);
        WritePacket(happened.TimeUs);
    }

    /// <summary>Passes a fault to whom the writer was told to tell.</summary>
    public void OnFault(CaptureFault fault) => _onFault?.Invoke(fault);

    /// <summary>Writes what is held to the stream.</summary>
    public void Flush()
    {
        _stream.Write(_buffer.WrittenSpan);
        _buffer.ResetWrittenCount();
        _stream.Flush();
    }

    /// <summary>Writes what is held; the stream stays open.</summary>
    public void Dispose() => Flush();

    private void WriteSection()
    {
        Span<byte> fixedPart = stackalloc byte[16];
        BinaryPrimitives.WriteUInt32LittleEndian(fixedPart, BlockTypes.ByteOrderMagic);
        BinaryPrimitives.WriteUInt16LittleEndian(fixedPart[4..], 1);

        // The length of the section is not known when it begins (4.1 of the draft).
        BinaryPrimitives.WriteInt64LittleEndian(fixedPart[8..], -1);
        _payload.Write(fixedPart);
        WriteOption(BlockTypes.UserApplication, "Portwitness"u8);
        WriteOption(BlockTypes.EndOfOptions, []);
        WriteBlock(BlockTypes.SectionHeader);
    }

    private void WriteInterface(CaptureHeader header)
    {
        Span<byte> fixedPart = stackalloc byte[PcapngInterface.FixedBytes];
        fixedPart.Clear();
        BinaryPrimitives.WriteUInt16LittleEndian(fixedPart, BlockTypes.LinkType);
        _payload.Write(fixedPart);
        WriteComments(header);
        if (header.Port is { Length: > 0 } port && Encoding.UTF8.GetBytes(port) is { Length: <= MaxNameBytes } name)
        {
            WriteOption(BlockTypes.InterfaceName, name);
        }

        // 10^-6 s.
        WriteOption(BlockTypes.TimeResolution, [6]);
        _startUs = header.Started is { } started ? PcapngTime.Floor(started) : 0;
        if (_startUs < 0)
        {
            // Stamps have no sign; the offset has.
            long seconds = (_startUs / MicrosecondsPerSecond) - 1;
            Span<byte> offset = stackalloc byte[8];
            BinaryPrimitives.WriteInt64LittleEndian(offset, seconds);
            WriteOption(BlockTypes.TimeOffset, offset);
            _startUs -= seconds * MicrosecondsPerSecond;
        }

        WriteOption(BlockTypes.EndOfOptions, []);
        WriteBlock(BlockTypes.InterfaceDescription);
    }

    private void WriteComments(CaptureHeader header)
    {
        ArrayBufferWriter<byte> text = new();
        using Utf8JsonWriter json = new(text, HeaderText.Style);
        HeaderText.Write(json, header);
        json.Flush();
        for (ReadOnlySpan<byte> rest = text.WrittenSpan; ; rest = rest[PcapngInterface.CommentBytes..])
        {
            WriteOption(BlockTypes.Comment, rest[..Math.Min(rest.Length, PcapngInterface.CommentBytes)]);
            if (rest.Length < PcapngInterface.CommentBytes)
            {
                return;
            }
        }
    }

    private void WriteOption(ushort code, ReadOnlySpan<byte> value)
    {
        Span<byte> bytes = _payload.GetSpan(4 + value.Length + 3);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, code);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes[2..], (ushort)value.Length);
        value.CopyTo(bytes[4..]);
        bytes[(4 + value.Length)..(4 + value.Length + 3)].Clear();
        _payload.Advance(4 + ((value.Length + 3) & ~3));
    }

    private void WriteBlock(uint type)
    {
        int length = 12 + _payload.WrittenCount;
        Span<byte> block = _buffer.GetSpan(length);
        BinaryPrimitives.WriteUInt32LittleEndian(block, type);
        BinaryPrimitives.WriteUInt32LittleEndian(block[4..], (uint)length);
        _payload.WrittenSpan.CopyTo(block[8..]);
        BinaryPrimitives.WriteUInt32LittleEndian(block[(length - 4)..], (uint)length);
        _buffer.Advance(length);
        _payload.ResetWrittenCount();
    }

    private void WritePacket(long timeUs)
    {
        if (!_headerWritten)
        {
            _payload.ResetWrittenCount();
            throw new InvalidOperationException("The header comes first.");
        }

        int captured = _payload.WrittenCount;
        int padded = (captured + 3) & ~3;
        int length = PacketBytes + padded + 4;
        ulong stamp = (ulong)(_startUs + timeUs);
        Span<byte> block = _buffer.GetSpan(length);
        BinaryPrimitives.WriteUInt32LittleEndian(block, BlockTypes.EnhancedPacket);
        BinaryPrimitives.WriteUInt32LittleEndian(block[4..], (uint)length);
        BinaryPrimitives.WriteUInt32LittleEndian(block[8..], 0);
        BinaryPrimitives.WriteUInt32LittleEndian(block[12..], (uint)(stamp >> 32));
        BinaryPrimitives.WriteUInt32LittleEndian(block[16..], (uint)stamp);
        BinaryPrimitives.WriteUInt32LittleEndian(block[20..], (uint)captured);
        BinaryPrimitives.WriteUInt32LittleEndian(block[24..], (uint)captured);
        _payload.WrittenSpan.CopyTo(block[PacketBytes..]);
        block[(PacketBytes + captured)..(PacketBytes + padded)].Clear();
        BinaryPrimitives.WriteUInt32LittleEndian(block[(PacketBytes + padded)..], (uint)length);
        _buffer.Advance(length);
        _payload.ResetWrittenCount();
        if (_buffer.WrittenCount >= FlushAt)
        {
            _stream.Write(_buffer.WrittenSpan);
            _buffer.ResetWrittenCount();
        }
    }
}
