namespace Portwitness.Service.Telemetry;

/// <summary>
/// Where metrics, traces and logs go. What is left out is taken from the standard variables of the environment, OTEL_EXPORTER_OTLP_ENDPOINT
/// and so on; when these name no collector either, counts go to the log. Not a record: its text would hold <see cref="Headers"/>.
/// </summary>
public sealed class TelemetrySettings
{
    /// <summary>The collector's address, without the path of a signal; null leaves it to the environment.</summary>
    public Uri? Otlp { get; init; }

    /// <summary>How the collector is spoken to; null leaves it to the environment, and without a word there it is gRPC.</summary>
    public OtlpProtocol? Protocol { get; init; }

    /// <summary>
    /// Headers for the collector, NAME=VALUE with commas between them. Secret: from the environment or a configuration, never from a
    /// command line, and never logged. Null leaves them to OTEL_EXPORTER_OTLP_HEADERS.
    /// </summary>
    public string? Headers { get; init; }

    /// <summary>The time from one export of metrics to the next; null leaves it to the environment, and without a word there it is 60 s.</summary>
    public TimeSpan? Interval { get; init; }
}
