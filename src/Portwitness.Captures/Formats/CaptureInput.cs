using Portwitness.Captures.Archives;
using Portwitness.Captures.Input;
using Portwitness.Captures.Measurements;

namespace Portwitness.Captures.Formats;

/// <summary>
/// A capture, and perhaps a table of measurements that is joined into it in the order of time. Whoever asks
/// <see cref="Wanted"/> before each piece keeps memory small whatever the length of both; other orders give the same records.
/// </summary>
public sealed class CaptureInput
{
    private readonly CaptureReader _reader;
    private readonly MeasurementMerge? _merge;
    private readonly FaultLog? _measurementFaults;
    private readonly TextStart? _measurements;
    private bool _captureEnded;
    private bool _measurementsEnded;

    /// <summary>An input that hands what it finds to a sink.</summary>
    public CaptureInput(ICaptureSink sink, CaptureReadOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(sink);
        if (options?.Measurements is { } measurements)
        {
            _merge = new MeasurementMerge(sink, measurements);
            _measurementFaults = new FaultLog(new MeasurementFaults(sink));
            MeasurementReader table = new(measurements, _merge.Measurements, _measurementFaults);
            _measurements = new TextStart(new LineInput(new LineSplitter(_measurementFaults), table), _measurementFaults);
        }

        _reader = new CaptureReader(_merge ?? sink, options);
    }

    /// <summary>The capture's format; null as long as, or when, none was found.</summary>
    public string? Format => _reader.Format;

    /// <summary>What to give next.</summary>
    public NeededInput Wanted => _merge?.Wanted ?? (_captureEnded ? NeededInput.None : NeededInput.Capture);

    /// <summary>Takes the next piece of the capture.</summary>
    /// <exception cref="InvalidOperationException">It was said to have ended.</exception>
    public void Write(ReadOnlySpan<byte> piece)
    {
        _reader.Write(piece);
        _merge?.Drain();
    }

    /// <summary>Says that the capture has ended.</summary>
    public void EndCapture()
    {
        if (!_captureEnded)
        {
            _captureEnded = true;
            _reader.Complete();
            _merge?.EndCapture();
            _merge?.Drain();
        }
    }

    /// <summary>Takes the next piece of the measurements.</summary>
    /// <exception cref="InvalidOperationException">There are none, or they were said to have ended.</exception>
    public void WriteMeasurements(ReadOnlySpan<byte> piece)
    {
        if (_measurements is null || _measurementsEnded)
        {
            throw new InvalidOperationException("No measurements are expected, or they have ended.");
        }

        _measurements.Write(piece);
        _merge!.Drain();
    }

    /// <summary>Says that the measurements have ended.</summary>
    public void EndMeasurements()
    {
        if (_measurements is not null && !_measurementsEnded)
        {
            _measurementsEnded = true;
            _measurements.Complete();
            _measurementFaults!.Complete();
            _merge!.EndMeasurements();
            _merge.Drain();
        }
    }

    /// <summary>Says that there is no more of either.</summary>
    public void Complete()
    {
        EndCapture();
        EndMeasurements();
    }

    /// <summary>Faults of the measurements stand among those of the capture and say where they belong.</summary>
    private sealed class MeasurementFaults(ICaptureSink sink) : ICaptureSink
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

        public void OnFault(CaptureFault fault) => sink.OnFault(new CaptureFault(
            0, 0, FaultCodes.MeasurementsFaulty, FaultText.OfMeasurements(fault)));
    }
}
