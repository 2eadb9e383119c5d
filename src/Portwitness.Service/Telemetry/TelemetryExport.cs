using System.Collections;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using OpenTelemetry;
using OpenTelemetry.Logs;
using OpenTelemetry.Resources;

namespace Portwitness.Service.Telemetry;

/// <summary>Sends metrics, traces and logs to a collector of OpenTelemetry, by OTLP; without one, counts go to the log.</summary>
public static class TelemetryExport
{
    private const string Endpoint = "OTEL_EXPORTER_OTLP_ENDPOINT";

    // Their tags are names of routes, methods and protocols, nothing that a client wrote. Spans and scopes of the web server hold
    // paths and hosts as sent, and stay out.
    private static readonly string[] Meters =
        [ServiceMetrics.SourceName, "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel", "System.Runtime"];

    /// <summary>The version of the program, as it is told.</summary>
    internal static string Version { get; } = typeof(TelemetryExport).Assembly.GetName().Version?.ToString(3) ?? "0";

    /// <summary>Adds what is exported to a server that is being built.</summary>
    public static void AddTo(WebApplicationBuilder builder, TelemetrySettings settings)
    {
        Dictionary<string, string?> values = ReadEnvironment();
        Overlay(values, settings);
        bool isDisabled = string.Equals(values.GetValueOrDefault("OTEL_SDK_DISABLED"), "true", StringComparison.OrdinalIgnoreCase);
        bool isExported = values.Any(static value =>
            value.Key.StartsWith("OTEL_EXPORTER_OTLP_", StringComparison.Ordinal)
            && value.Key.EndsWith("ENDPOINT", StringComparison.Ordinal) && !string.IsNullOrEmpty(value.Value));
        if (isDisabled)
        {
            return;
        }

        if (!isExported)
        {
            builder.Services.AddHostedService(services => ActivatorUtilities.CreateInstance<CountLog>(services, settings.Interval ?? CountLog.Usual));
            return;
        }

        builder.Configuration.AddInMemoryCollection(values);
        OpenTelemetryBuilder telemetry = builder.Services.AddOpenTelemetry()
            // The environment last, so that it may rename one service of several.
            .ConfigureResource(static resource => resource.AddService("portwitness", serviceVersion: Version).AddEnvironmentVariableDetector())
            .WithMetrics(static metrics => metrics.AddMeter(Meters))
            .WithTracing(static traces => traces.AddSource(ServiceMetrics.SourceName));
        AddLogs(builder, telemetry);
        telemetry.UseOtlpExporter();
    }

    private static void AddLogs(WebApplicationBuilder builder, OpenTelemetryBuilder telemetry)
    {
        telemetry.WithLogging(static _ => { }, static logs =>
        {
            logs.IncludeFormattedMessage = true;
            logs.IncludeScopes = false;
        });
        // What is exported does not hang on how much the console shows. Servers' own logs hold requests as sent below warnings.
        builder.Logging.AddFilter<OpenTelemetryLoggerProvider>(null, LogLevel.Warning);
        builder.Logging.AddFilter<OpenTelemetryLoggerProvider>("Portwitness", LogLevel.Information);
    }

    // The server is built without any configuration, so that nothing of the environment moves its addresses; these alone are let in.
    private static Dictionary<string, string?> ReadEnvironment() => Environment.GetEnvironmentVariables().Cast<DictionaryEntry>()
        .Where(static variable => ((string)variable.Key).StartsWith("OTEL_", StringComparison.Ordinal))
        .ToDictionary(static variable => (string)variable.Key, static variable => (string?)variable.Value);

    // Settings speak the language of the environment: then there is one way for both, which adds the paths of signals.
    private static void Overlay(Dictionary<string, string?> values, TelemetrySettings settings)
    {
        Set(Endpoint, settings.Otlp?.AbsoluteUri);
        Set("OTEL_EXPORTER_OTLP_PROTOCOL", settings.Protocol switch
        {
            OtlpProtocol.Grpc => "grpc",
            OtlpProtocol.Http => "http/protobuf",
            _ => null,
        });
        Set("OTEL_EXPORTER_OTLP_HEADERS", settings.Headers);
        Set("OTEL_METRIC_EXPORT_INTERVAL", settings.Interval?.TotalMilliseconds.ToString("F0", CultureInfo.InvariantCulture));

        void Set(string name, string? value)
        {
            if (value is not null)
            {
                values[name] = value;
            }
        }
    }
}
