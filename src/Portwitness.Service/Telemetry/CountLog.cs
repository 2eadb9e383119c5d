using System.Diagnostics;
using System.Diagnostics.Metrics;
using System.Globalization;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Portwitness.Service.Telemetry;

/// <summary>Where no collector takes the metrics: a line a minute of what was counted in it, when anything was.</summary>
public sealed class CountLog : BackgroundService
{
    /// <summary>From one line to the next, when nothing else is said.</summary>
    public static readonly TimeSpan Usual = TimeSpan.FromMinutes(1);

    private const int MaxNamed = 5;

    private readonly Lock _gate = new();
    private readonly SortedDictionary<string, SortedDictionary<string, long>> _counted = new(StringComparer.Ordinal);
    private readonly MeterListener _listener = new();
    private readonly ILogger<CountLog> _logger;
    private readonly TimeSpan _interval;
    private long _begun = Stopwatch.GetTimestamp();

    /// <summary>Counts from now on.</summary>
    /// <param name="metrics">What counts.</param>
    /// <param name="logger">Takes the lines.</param>
    /// <param name="interval">From one line to the next.</param>
    public CountLog(ServiceMetrics metrics, ILogger<CountLog> logger, TimeSpan interval)
    {
        (_logger, _interval) = (logger, interval);
        _listener.InstrumentPublished = (instrument, listener) =>
        {
            if (metrics.Has(instrument))
            {
                listener.EnableMeasurementEvents(instrument);
            }
        };
        _listener.SetMeasurementEventCallback<long>((instrument, value, tags, _) => Add(instrument, value, TextOf(tags)));
        // Of times, how many stayed within which bound: a line has no room for more.
        _listener.SetMeasurementEventCallback<double>((instrument, value, _, _) => Add(
            instrument, 1, Array.Find(ServiceMetrics.DurationBounds, bound => value <= bound) is > 0 and var within
                ? string.Create(CultureInfo.InvariantCulture, $"within {within} s") : "longer"));
        _listener.Start();
    }

    /// <inheritdoc/>
    public override void Dispose()
    {
        _listener.Dispose();
        base.Dispose();
    }

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using PeriodicTimer timer = new(_interval);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken))
            {
                Write();
            }
        }
        catch (OperationCanceledException)
        {
            Write();
        }
    }

    private static string TextOf(ReadOnlySpan<KeyValuePair<string, object?>> tags)
    {
        List<string> values = [];
        foreach (KeyValuePair<string, object?> tag in tags)
        {
            values.Add(tag.Value?.ToString() ?? "");
        }

        return string.Join(' ', values);
    }

    private void Add(Instrument instrument, long value, string what)
    {
        string name = instrument.Name[(ServiceMetrics.SourceName.Length + 1)..];
        lock (_gate)
        {
            if (!_counted.TryGetValue(name, out SortedDictionary<string, long>? counts))
            {
                _counted[name] = counts = new SortedDictionary<string, long>(StringComparer.Ordinal);
            }

            counts[what] = counts.GetValueOrDefault(what) + value;
        }
    }

    private void Write()
    {
        string counts;
        lock (_gate)
        {
            if (_counted.Count == 0)
            {
                _begun = Stopwatch.GetTimestamp();
                return;
            }

            // Gauges tell of now; alone they are no reason for a line.
            _listener.RecordObservableInstruments();
            counts = string.Join("; ", _counted.Select(static one => $"{one.Key} {TextOf(one.Value)}"));
            _counted.Clear();
        }

        long seconds = (long)Math.Ceiling(Stopwatch.GetElapsedTime(_begun).TotalSeconds);
        _begun = Stopwatch.GetTimestamp();
        Log.Counted(_logger, seconds, counts);
    }

    // The most frequent by name, the others as a sum.
    private static string TextOf(SortedDictionary<string, long> counts)
    {
        KeyValuePair<string, long>[] sorted = [.. counts.OrderByDescending(static one => one.Value)];
        IEnumerable<string> named = sorted.Take(sorted.Length > MaxNamed ? MaxNamed - 1 : MaxNamed).Select(static one =>
            string.Create(CultureInfo.InvariantCulture, $"{one.Value}{(one.Key.Length > 0 ? " " : "")}{one.Key}"));
        long others = sorted.Length > MaxNamed ? sorted.Skip(MaxNamed - 1).Sum(static one => one.Value) : 0;
        return string.Join(", ", others > 0 ? named.Append(string.Create(CultureInfo.InvariantCulture, $"{others} others")) : named);
    }
}
