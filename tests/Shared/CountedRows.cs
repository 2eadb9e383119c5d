using System.Diagnostics.Metrics;

namespace Portwitness.Tests;

/// <summary>What instruments count: a row each time, of the instrument's name, the value and the values of its tags.</summary>
internal sealed class CountedRows : IDisposable
{
    private readonly List<string> _rows = [];
    private readonly MeterListener _listener = new();

    /// <summary>Listens from now on.</summary>
    /// <param name="isListenedTo">Tells which instruments.</param>
    public CountedRows(Func<Instrument, bool> isListenedTo)
    {
        _listener.InstrumentPublished = (instrument, listener) =>
        {
            if (isListenedTo(instrument))
            {
                listener.EnableMeasurementEvents(instrument);
            }
        };
        _listener.SetMeasurementEventCallback<long>((instrument, value, tags, _) =>
        {
            lock (_rows)
            {
                _rows.Add($"{instrument.Name} {value}{string.Concat(tags.ToArray().Select(static tag => $" {tag.Value}"))}");
            }
        });
        _listener.Start();
    }

    /// <summary>The rows so far.</summary>
    public string[] Rows
    {
        get
        {
            lock (_rows)
            {
                return [.. _rows];
            }
        }
    }

    /// <summary>Asks the instruments that are observed.</summary>
    public void Observe() => _listener.RecordObservableInstruments();

    public void Dispose() => _listener.Dispose();
}
