using Portwitness.Captures.Archives;

namespace Portwitness.Captures.Formats;

/// <summary>A writer whose bytes are compressed; disposing it ends the compressed file.</summary>
internal sealed class PackedWriter : ICaptureWriter
{
    private readonly Stream _packed;
    private readonly ICaptureWriter _writer;

    public PackedWriter(CaptureFormat format, Stream stream)
    {
        _packed = Gzip.Pack(stream);
        _writer = format.Open(_packed, null);
    }

    public IReadOnlyDictionary<string, long> LeftOut => _writer.LeftOut;

    public IReadOnlyList<MovedRecord> Moved => _writer.Moved;

    public long MovedCount => _writer.MovedCount;

    public void Flush() => _writer.Flush();

    public void OnHeader(CaptureHeader header) => _writer.OnHeader(header);

    public void OnMessage(in MessageRecord message) => _writer.OnMessage(message);

    public void OnSignal(SignalRecord signal) => _writer.OnSignal(signal);

    public void OnMeasurement(MeasurementRecord measurement) => _writer.OnMeasurement(measurement);

    public void OnEvent(EventRecord happened) => _writer.OnEvent(happened);

    public void OnBrokenFrame(BrokenFrameRecord frame) => _writer.OnBrokenFrame(frame);

    public void OnFault(CaptureFault fault) => _writer.OnFault(fault);

    public void Dispose()
    {
        _writer.Dispose();
        _packed.Dispose();
    }
}
