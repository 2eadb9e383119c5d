namespace Portwitness.Cli.Shell;

/// <summary>What is taken from the environment: secrets, which do not belong on a command line that others can see, and what belongs to an account.</summary>
internal static class EnvironmentVariables
{
    /// <summary>Every variable with what it is for.</summary>
    public static IReadOnlyList<(string Name, string Of, string Meaning)> All { get; } =
    [
        ("PORTWITNESS_STORE", "serve, tokens, history", "where reports are kept, when --store does not say it; the address may hold a password"),
        ("PORTWITNESS_QUEUE", "serve", "where submissions wait, when --queue does not say it; the address may hold a user and a password"),
        ("PORTWITNESS_TOKEN", "--server", "the token that is shown to a service"),
        ("PORTWITNESS_TOKEN_FILE", "--server", "a file that holds the token"),
        ("PORTWITNESS_CA", "--server", "PEM file of the authorities that a service's certificate is judged by, instead of the system's"),
        ("PORTWITNESS_CERTIFICATE", "--server", "PEM file of the certificate that is shown to a service (mutual TLS)"),
        ("PORTWITNESS_KEY", "--server", "PEM file of its private key"),
        ("OTEL_EXPORTER_OTLP_ENDPOINT", "serve", "the collector of telemetry, when --otlp does not say it; the other variables of the OpenTelemetry specification count, too"),
        ("OTEL_EXPORTER_OTLP_HEADERS", "serve", "headers for the collector, which may be secret"),
        ("NO_COLOR", "all", "no colour (no-color.org)"),
        ("XDG_STATE_HOME", "serve, tokens, history", "the folder below which reports are kept when nothing else is said"),
    ];
}
