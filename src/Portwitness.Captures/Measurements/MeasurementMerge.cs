namespace Portwitness.Captures.Measurements;

/// <summary>
/// Puts the records of a capture and those of a table of measurements into one order of time. It holds what came of
/// either until the other has come as far, so that it stays small when asked for what <see cref="Wanted"/> says.
/// </summary>
internal sealed class MeasurementMerge : ICaptureSink
{
    private readonly ICaptureSink _sink;
    private readonly MeasurementOptions _options;
    private readonly RecordHold _records;
    private bool _headed;
    private bool _captureEnded;
    private bool _measurementsEnded;

    public MeasurementMerge(ICaptureSink sink, MeasurementOptions options) =>
        (_sink, _options, _records) = (sink, options, new RecordHold(sink));

    /// <summary>Measurements that wait.</summary>
    public Queue<MeasurementRecord> Measurements { get; } = new();

    /// <summary>What is needed to go on.</summary>
    public NeededInput Wanted =>
        !_measurementsEnded && Measurements.Count == 0 && (_captureEnded || !_records.IsEmpty) ? NeededInput.Measurements
        : !_captureEnded ? NeededInput.Capture
        : _measurementsEnded ? NeededInput.None
        : NeededInput.Measurements;

    public void OnHeader(CaptureHeader header)
    {
        _headed = true;
        _sink.OnHeader(header with
        {
            MeasuredAt = _options.MeasuredAt == MeasuringPoint.Unknown ? header.MeasuredAt : _options.MeasuredAt,
            Accuracy = _options.Accuracy ?? header.Accuracy,
        });
    }

    public void OnMessage(in MessageRecord message) => _records.Add(message);

    public void OnSignal(SignalRecord signal) => _records.Add(signal);

    public void OnBrokenFrame(BrokenFrameRecord frame) => _records.Add(frame);

    public void OnMeasurement(MeasurementRecord measurement) => _records.Add(measurement);

    public void OnEvent(EventRecord happened) => _records.Add(happened);

    public void OnFault(CaptureFault fault) => _sink.OnFault(fault);

    public void EndCapture() => _captureEnded = true;

    public void EndMeasurements() => _measurementsEnded = true;

    /// <summary>Hands on whatever is in order.</summary>
    public void Drain()
    {
        while (!_records.IsEmpty || Measurements.Count > 0)
        {
            // Of the same time, what the capture holds comes first.
            if (!_records.IsEmpty && (Measurements.Count > 0 ? _records.NextTimeUs <= Measurements.Peek().TimeUs : _measurementsEnded))
            {
                _records.Give();
            }
            else if (Measurements.Count > 0 && (!_records.IsEmpty || _captureEnded))
            {
                Give(Measurements.Dequeue());
            }
            else
            {
                return;
            }
        }
    }

    // Without a capture there is nothing to join to.
    private void Give(MeasurementRecord measurement)
    {
        if (_headed)
        {
            _sink.OnMeasurement(measurement with { Line = 0 });
        }
    }
}
