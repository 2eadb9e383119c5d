using System.Buffers;
using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.JsonLines;

/// <summary>
/// Writes the open capture format, version 1. It is a sink, so that any reader can be converted by handing it one:
/// nothing that the records carry is lost, and reading what was written and writing it again gives the same bytes.
/// </summary>
/// <remarks>The stream is left open. What is still held is written by <see cref="Flush"/> or <see cref="Dispose"/>.</remarks>
public sealed class CaptureWriter : ICaptureWriter
{
    private const int FlushAt = 32 * 1024;

    private readonly Stream _stream;
    private readonly Action<CaptureFault>? _onFault;
    private readonly ArrayBufferWriter<byte> _buffer = new(2 * FlushAt);
    private readonly Utf8JsonWriter _json;
    private bool _headerWritten;

    /// <summary>A writer to a stream.</summary>
    /// <param name="stream">Where the capture goes.</param>
    /// <param name="onFault">Told of each fault of a conversion's input; a capture has no place for them.</param>
    public CaptureWriter(Stream stream, Action<CaptureFault>? onFault = null)
    {
        ArgumentNullException.ThrowIfNull(stream);
        _stream = stream;
        _onFault = onFault;

        _json = new Utf8JsonWriter(_buffer, HeaderText.Style);
    }

    /// <summary>Writes the header line; must come first, and once.</summary>
    /// <exception cref="InvalidOperationException">A header was written before.</exception>
    public void OnHeader(CaptureHeader header)
    {
        ArgumentNullException.ThrowIfNull(header);
        if (_headerWritten)
        {
            throw new InvalidOperationException("A capture has one header.");
        }

        _headerWritten = true;
        HeaderText.Write(_json, header);
        EndLine(isOpen: false);
    }

    /// <summary>Writes a message.</summary>
    /// <exception cref="ArgumentException">It has too few or too many bytes, or a mask of another length.</exception>
    public void OnMessage(in MessageRecord message)
    {
        int length = message.Bytes.Length;
        if (length is < CaptureLimits.MinimumMessageBytes or > CaptureLimits.MaximumMessageBytes
            || (!message.Known.IsEmpty && message.Known.Length != length))
        {
            throw new ArgumentException("A message has 2 to 1024 bytes, and a mask of known bits as many.", nameof(message));
        }

        StartRecord(message.TimeUs);
        _json.WriteString("sop"u8, message.Sop.ToText());
        WriteHex("hex"u8, message.Bytes);
        if (!message.Known.IsEmpty)
        {
            WriteHex("known"u8, message.Known);
        }

        if (message.Crc is uint crc)
        {
            Span<byte> bytes = stackalloc byte[4];
            BinaryPrimitives.WriteUInt32LittleEndian(bytes, crc);
            WriteHex("crc"u8, bytes);
        }

        if (message.CrcOk is bool ok)
        {
            _json.WriteBoolean("crc_ok"u8, ok);
        }

        QualityText.Write(_json, message.Quality);
        HeaderText.WriteMembers(_json, message.Extra);
        EndLine();
    }

    /// <summary>Writes a signal.</summary>
    public void OnSignal(SignalRecord signal)
    {
        StartRecord(signal.TimeUs);
        WriteText("signal", signal.Kind == SignalKind.HardReset ? "hard-reset" : "cable-reset");
        QualityText.Write(_json, signal.Quality);
        EndRecord(signal.Extra);
    }

    /// <summary>Writes a frame that broke.</summary>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        StartRecord(frame.TimeUs);
        WriteText("sop", frame.Sop?.ToText());
        WriteText("broke", frame.Why.ToWord());
        if (frame.Bit is { } bit)
        {
            _json.WriteNumber("bit"u8, bit);
        }

        if (frame.BrokeAtUs is { } brokeAt)
        {
            _json.WriteNumber("broke_at"u8, brokeAt);
        }

        WriteText("part", frame.Part.IsEmpty ? null : Convert.ToHexString(frame.Part.AsSpan()));
        QualityText.Write(_json, frame.Quality);
        EndRecord(frame.Extra);
    }

    /// <summary>Writes a measurement.</summary>
    public void OnMeasurement(MeasurementRecord measurement)
    {
        StartRecord(measurement.TimeUs);
        if (measurement.VbusMillivolts is int millivolts)
        {
            _json.WriteNumber("vbus_mv"u8, millivolts);
        }

        if (measurement.IbusMilliamperes is int milliamperes)
        {
            _json.WriteNumber("ibus_ma"u8, milliamperes);
        }

        EndRecord(measurement.Extra);
    }

    /// <summary>Writes an event.</summary>
    public void OnEvent(EventRecord happened)
    {
        StartRecord(happened.TimeUs);
        bool isShort = happened.Name is CaptureEvents.Rp or CaptureEvents.DataLine && happened.Value is not null;
        if (!isShort)
        {
            WriteText("event", happened.Name);
        }

        WriteText("port", happened.Port);
        WriteText(isShort ? happened.Name : "value", happened.Value);
        EndRecord(happened.Extra);
    }

    /// <inheritdoc/>
    public IReadOnlyDictionary<string, long> LeftOut => ImmutableDictionary<string, long>.Empty;

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
    public void Dispose()
    {
        Flush();
        _json.Dispose();
    }

    private void StartRecord(long timeUs)
    {
        if (!_headerWritten)
        {
            throw new InvalidOperationException("The header comes first.");
        }

        _json.WriteStartObject();
        _json.WriteNumber("t"u8, timeUs);
    }

    private void EndRecord(string? extra)
    {
        HeaderText.WriteMembers(_json, extra is null ? [] : Encoding.UTF8.GetBytes(extra));
        EndLine();
    }

    private void EndLine(bool isOpen = true)
    {
        if (isOpen)
        {
            _json.WriteEndObject();
        }

        _json.Flush();
        _json.Reset();
        _buffer.Write("\n"u8);
        if (_buffer.WrittenCount >= FlushAt)
        {
            _stream.Write(_buffer.WrittenSpan);
            _buffer.ResetWrittenCount();
        }
    }

    private void WriteText(string name, string? value)
    {
        if (value is not null)
        {
            _json.WriteString(name, value);
        }
    }

    private void WriteHex(ReadOnlySpan<byte> name, ReadOnlySpan<byte> bytes)
    {
        Span<byte> digits = stackalloc byte[2 * CaptureLimits.MaximumMessageBytes];
        Convert.TryToHexString(bytes, digits, out int length);
        _json.WriteString(name, digits[..length]);
    }
}
