namespace Portwitness.Service.Tests.Telemetry;

/// <summary>
/// What tests look at in exports. Numbers of fields are those of opentelemetry-proto 1.x: metrics/v1/metrics.proto,
/// trace/v1/trace.proto, logs/v1/logs.proto, common/v1/common.proto and resource/v1/resource.proto. All three requests hold
/// Resource* (1), which holds the resource (1) and Scope* (2), which holds the scope (1) and its metrics, spans or records (2).
/// </summary>
internal static class OtlpReading
{
    /// <summary>Attributes of the resource: Resource.attributes = 1.</summary>
    public static Dictionary<string, string> ResourceOf(WireMessage export) => Attributes(export.Message(1).Message(1), 1);

    /// <summary>Metrics, spans or log records with the name of their scope: InstrumentationScope.name = 1.</summary>
    public static IEnumerable<(string Scope, WireMessage Item)> Items(this IEnumerable<WireMessage> exports) => exports
        .SelectMany(static export => export.Messages(1, 2))
        .SelectMany(static scope => scope.Messages(2).Select(item => (scope.Message(1).Text(1), item)));

    /// <summary>
    /// Counters by their rows: Metric.sum = 7, Sum.data_points = 1, NumberDataPoint.as_int = 6 and attributes = 7. Sums are
    /// cumulative, so that the last one holds.
    /// </summary>
    public static Dictionary<string, long> Counts(this IEnumerable<WireMessage> metrics, string name)
    {
        Dictionary<string, long> counts = [];
        foreach (WireMessage point in metrics.Named(name).SelectMany(static metric => metric.Message(7).Messages(1)))
        {
            counts[Row(Attributes(point, 7))] = point.Number(6);
        }

        return counts;
    }

    /// <summary>Metric.name = 1.</summary>
    public static IEnumerable<WireMessage> Named(this IEnumerable<WireMessage> metrics, string name) =>
        metrics.Where(metric => metric.Text(1) == name);

    /// <summary>KeyValue.key = 1 and value = 2; AnyValue.string_value = 1 and int_value = 3.</summary>
    public static Dictionary<string, string> Attributes(WireMessage of, int field) => of.Messages(field).ToDictionary(
        static pair => pair.Text(1),
        static pair => pair.Message(2) is var value && value.Has(1) ? value.Text(1) : $"{value.Number(3)}");

    private static string Row(Dictionary<string, string> attributes) =>
        string.Join(' ', attributes.OrderBy(static one => one.Key, StringComparer.Ordinal).Select(static one => one.Value));
}
