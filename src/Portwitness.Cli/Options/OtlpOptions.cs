using System.CommandLine;
using Portwitness.Service.Telemetry;

namespace Portwitness.Cli.Options;

/// <summary>Where a service sends metrics, traces and logs. Headers are secret, so that they are taken from the environment alone.</summary>
internal sealed class OtlpOptions
{
    private const string Http = "http";

    public OtlpOptions()
    {
        Protocol.AcceptOnlyFromAmong("grpc", Http);
        Collector.Validators.Add(static result =>
        {
            if (Parse(result.GetValueOrDefault<string>()) is null)
            {
                result.AddError("--otlp takes http://host:port or https://host:port, without user and password. "
                    + "Headers for the collector belong into OTEL_EXPORTER_OTLP_HEADERS.");
            }
        });
    }

    public Option<string> Collector { get; } = new("--otlp")
    {
        Description = "send metrics, traces and logs to this collector of OpenTelemetry. Without it\nOTEL_EXPORTER_OTLP_ENDPOINT names one, or none is used",
        HelpName = "URL",
    };

    public Option<string> Protocol { get; } = new("--otlp-protocol")
    {
        Description = "how the collector is spoken to: grpc (the default, port 4317) or http (port 4318)",
        HelpName = "grpc|http",
    };

    public TelemetrySettings Read(ParseResult parsed) => new()
    {
        Otlp = Parse(parsed.GetValue(Collector)),
        Protocol = parsed.GetValue(Protocol) switch
        {
            null => null,
            Http => OtlpProtocol.Http,
            _ => OtlpProtocol.Grpc,
        },
    };

    private static Uri? Parse(string? text) => Uri.TryCreate(text, UriKind.Absolute, out Uri? url)
        && url.Scheme is "http" or "https" && url.UserInfo.Length == 0 && url.Query.Length == 0 ? url : null;
}
