using System.Diagnostics;
using System.Diagnostics.Metrics;
using Grpc.Core;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;

namespace Portwitness.Service.Telemetry;

/// <summary>What the service counts, and where spans of its calls begin. It costs next to nothing while nobody listens.</summary>
public sealed class ServiceMetrics : IDisposable
{
    /// <summary>The name of the meter and of the source of spans.</summary>
    public const string SourceName = "Portwitness";

    // From one message of a label to hours of a capture that is recorded while it is sent; in seconds.
    internal static readonly double[] DurationBounds = [0.001, 0.005, 0.025, 0.1, 0.5, 1, 5, 15, 60, 300, 1800, 7200];

    private readonly Meter _meter = new(SourceName, TelemetryExport.Version);
    private readonly ActivitySource _spans = new(SourceName, TelemetryExport.Version);
    private readonly Counter<long> _calls;
    private readonly Counter<long> _captures;
    private readonly Counter<long> _messages;
    private readonly Counter<long> _received;
    private readonly Counter<long> _findings;
    private readonly Counter<long> _products;
    private readonly Counter<long> _rejections;
    private readonly Histogram<double> _duration;

    /// <summary>Makes the instruments; each service has its own.</summary>
    public ServiceMetrics()
    {
        _calls = _meter.CreateCounter<long>("portwitness.calls", "{call}", "Calls that ended, by method and gRPC status.");
        _captures = _meter.CreateCounter<long>("portwitness.captures", "{capture}", "Captures that were analysed or converted.");
        _messages = _meter.CreateCounter<long>("portwitness.messages", "{message}", "USB PD messages in analysed captures.");
        _received = _meter.CreateCounter<long>("portwitness.received", "By", "Bytes of captures, logs of power and texts from clients.");
        _findings = _meter.CreateCounter<long>("portwitness.findings", "{finding}", "Findings in answers, by rule and severity.");
        _products = _meter.CreateCounter<long>("portwitness.products", "{product}", "Products that were checked, by verdict.");
        _rejections = _meter.CreateCounter<long>("portwitness.rejections", "{call}", "Calls that were refused, by reason.");
        _duration = _meter.CreateHistogram(
            "portwitness.call.duration", "s", "From the beginning of a call to its end, with the time that its client takes.",
            advice: new InstrumentAdvice<double> { HistogramBucketBoundaries = DurationBounds });
        _meter.CreateObservableGauge("portwitness.queue.depth", () => Observe(QueueDepth), "{job}", "Jobs that wait.");
        _meter.CreateObservableGauge("portwitness.queue.parked", () => Observe(QueueParked), "{job}", "Jobs that were given up and set aside.");
    }

    /// <summary>Whether an instrument is of this service, and not of another one of the same process.</summary>
    internal bool Has(Instrument instrument) => instrument.Meter == _meter;

    /// <summary>Tells how many jobs wait; null, as at first, when there is no queue.</summary>
    public Func<long>? QueueDepth { get; set; }

    /// <summary>Tells how many jobs were set aside; null, as at first, when there is no queue.</summary>
    public Func<long>? QueueParked { get; set; }

    /// <summary>Counts a call that was refused.</summary>
    public void Rejected(RejectionReason reason) => _rejections.Add(1, new KeyValuePair<string, object?>("reason", MetricTags.Of(reason)));

    /// <inheritdoc/>
    public void Dispose()
    {
        _meter.Dispose();
        _spans.Dispose();
    }

    /// <summary>A call begins.</summary>
    /// <param name="method">Its name in the contract; never a text of a client.</param>
    /// <param name="headers">What the client sent; of it only the identifiers of its trace are used.</param>
    internal WatchedCall Begin(string method, Metadata headers) => new(this, method, StartSpan(method, headers));

    internal void CountCapture(long messages)
    {
        _captures.Add(1);
        _messages.Add(messages);
    }

    internal void CountReceived(long bytes) => _received.Add(bytes);

    internal void CountFinding(Finding finding) => _findings.Add(
        1, new("rule", MetricTags.Rule(finding.Rule)), new("severity", MetricTags.Of(finding.Severity)));

    internal void CountProduct(Verdict verdict) => _products.Add(1, new KeyValuePair<string, object?>("verdict", MetricTags.Of(verdict)));

    internal void CountCall(string method, StatusCode status, TimeSpan duration)
    {
        _calls.Add(1, new("method", method), new("status", status.ToString()));
        _duration.Record(duration.TotalSeconds, new KeyValuePair<string, object?>("method", method));
    }

    private static IEnumerable<Measurement<long>> Observe(Func<long>? value) => value is null ? [] : [new Measurement<long>(value())];

    private Activity? StartSpan(string method, Metadata headers)
    {
        if (!_spans.HasListeners())
        {
            return null;
        }

        // The server's own activity is not exported: its tags would be what a client wrote. The parent is the client's span,
        // by its identifiers alone; its state is a text of the client's.
        _ = ActivityContext.TryParse(headers.GetValue("traceparent"), null, isRemote: true, out ActivityContext parent);
        Activity.Current = null;
        return _spans.StartActivity($"{Contracts.V1.Witness.Descriptor.FullName}/{method}", ActivityKind.Server, parent);
    }
}
