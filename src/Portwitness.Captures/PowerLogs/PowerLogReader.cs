using Portwitness.Captures.Archives;
using Portwitness.Captures.Input;
using Portwitness.Captures.Tables;

namespace Portwitness.Captures.PowerLogs;

/// <summary>
/// Reads a log of power, a table of time, volts and amps (captures/ENERGY.md), from bytes in pieces of any size. What cannot be
/// read is a fault with its place, and reading goes on. Memory does not grow with the file, but for a bounded number of rows whose times
/// can be read in two ways.
/// </summary>
public sealed class PowerLogReader : IDisposable
{
    private readonly FaultLog _faults;
    private readonly PowerLogLines _lines;
    private readonly TextStart _input;
    private bool _completed;

    /// <summary>A reader that hands what it finds to a sink.</summary>
    /// <param name="sink">Takes rows and faults.</param>
    /// <param name="columns">Which columns hold what; empty when the headings say it.</param>
    /// <param name="temperatures">Headings of columns with temperatures in °C; null for none.</param>
    public PowerLogReader(IPowerLogSink sink, TableMapping? columns = null, IReadOnlyList<string>? temperatures = null)
    {
        ArgumentNullException.ThrowIfNull(sink);
        _faults = new FaultLog(new Faults(sink));
        _lines = new PowerLogLines(sink, columns ?? new TableMapping(), temperatures ?? [], _faults);
        _input = new TextStart(new LineInput(new LineSplitter(_faults), _lines), _faults);
    }

    /// <summary>Nothing states the unit of a column, so that the usual one was taken: sums rest on a guess.</summary>
    public bool UnitsAssumed => _lines.UnitsAssumed;

    /// <summary>Takes the next piece.</summary>
    /// <exception cref="InvalidOperationException">The log was said to have ended.</exception>
    public void Write(ReadOnlySpan<byte> piece)
    {
        if (_completed)
        {
            throw new InvalidOperationException("The log has ended.");
        }

        _input.Write(piece);
    }

    /// <summary>Says that there is no more.</summary>
    public void Complete()
    {
        if (!_completed)
        {
            _completed = true;
            _input.Complete();
            _faults.Complete();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _input.Close();

    /// <summary>The helpers of tables tell faults to the sink of a capture.</summary>
    private sealed class Faults(IPowerLogSink sink) : ICaptureSink
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

        public void OnFault(CaptureFault fault) => sink.OnFault(fault);
    }
}
