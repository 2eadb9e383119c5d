using Portwitness.Contracts.V1;
using Portwitness.Service.Telemetry;
using Portwitness.Tests;

namespace Portwitness.Service.Tests.Telemetry;

/// <summary>What a collector receives of a service that answered a Check and refused another.</summary>
[Collection(AloneCollection.Name)]
public class OtlpExportTests
{
    private static readonly string[] OfClients =
    [
        WatchedService.Secret, "Tarnholt", "TH-100", "100W", "USB-C1", "capture.jsonl", "product.yaml", "told-by-client",
        "\u001b[31m",
    ];

    [Theory]
    [InlineData(OtlpProtocol.Grpc)]
    [InlineData(OtlpProtocol.Http)]
    public async Task Metrics_AreThoseOfTheReport(OtlpProtocol protocol)
    {
        await using OtlpReceiver receiver = await OtlpReceiver.StartAsync(protocol);
        ProductReport report = await RunAsync(receiver, protocol);

        List<WireMessage> metrics = [.. receiver.Of("metrics").Items().Where(one => one.Scope == "Portwitness").Select(one => one.Item)];
        metrics.Counts("portwitness.calls").Should().Equal(new Dictionary<string, long> { ["Check OK"] = 1, ["Check InvalidArgument"] = 1 });
        metrics.Counts("portwitness.captures").Should().Contain("", 4);
        metrics.Counts("portwitness.messages").Should().Contain("", MessagesInFiles());
        metrics.Counts("portwitness.products").Should().Equal(new Dictionary<string, long> { ["fails"] = 1 });
        metrics.Counts("portwitness.rejections").Should().Equal(new Dictionary<string, long> { ["invalid"] = 1 });
        metrics.Counts("portwitness.received").Should().Contain("", report.Inputs.Sum(input => input.Bytes));
        report.Findings.Should().NotBeEmpty();
        metrics.Counts("portwitness.findings").Should().BeEquivalentTo(report.Findings
            .GroupBy(finding => $"{finding.Rule} {finding.Severity.ToString().ToLowerInvariant()}")
            .ToDictionary(group => group.Key, group => (long)group.Count()));
        // Metric.histogram = 9, Histogram.data_points = 1, HistogramDataPoint.count = 4 and sum = 5.
        WireMessage duration = metrics.Named("portwitness.call.duration").Last().Message(9).Messages(1).Single();
        duration.Number(4).Should().Be(2);
        duration.Double(5).Should().BeInRange(0.0001, 60);
        // Metric.gauge = 5, Gauge.data_points = 1, NumberDataPoint.as_int = 6.
        metrics.Named("portwitness.queue.depth").Last().Message(5).Message(1).Number(6).Should().Be(3);
        metrics.Named("portwitness.queue.parked").Should().BeEmpty("nobody tells");
        // Metric.unit = 3.
        metrics.Select(metric => (metric.Text(1), metric.Text(3))).Distinct().Should().Contain(
            [("portwitness.received", "By"), ("portwitness.call.duration", "s"), ("portwitness.messages", "{message}")]);
        receiver.Keys.Should().OnlyContain(key => key == WatchedService.Secret);
    }

    [Theory]
    [InlineData(OtlpProtocol.Grpc)]
    [InlineData(OtlpProtocol.Http)]
    public async Task Spans_AreOneACallAndLogsAreTiedToThem(OtlpProtocol protocol)
    {
        await using OtlpReceiver receiver = await OtlpReceiver.StartAsync(protocol);
        ProductReport report = await RunAsync(receiver, protocol);

        List<WireMessage> spans = [.. receiver.Of("traces").Items().Select(one => one.Item)];
        // Span.name = 5, kind = 6 (2 is a server's), attributes = 9.
        spans.Should().HaveCount(2).And.OnlyContain(span => span.Text(5) == "portwitness.v1.Witness/Check" && span.Number(6) == 2);
        Dictionary<string, string> answered = OtlpReading.Attributes(spans[0], 9);
        answered.Should().Contain("method", "Check").And.Contain("status", "OK")
            .And.Contain("findings", $"{report.Findings.Count}")
            .And.Contain("messages", $"{MessagesInFiles()}");
        OtlpReading.Attributes(spans[1], 9).Should().Contain("status", "InvalidArgument");
        // Span.trace_id = 1, LogRecord.trace_id = 9.
        Convert.ToHexStringLower(spans[1].Bytes(1).Span).Should().Be(WatchedService.Trace);
        WireMessage record = receiver.Of("logs").Items().Single(one => one.Scope.EndsWith("WitnessService", StringComparison.Ordinal)).Item;
        record.Bytes(9).Should().Equal(spans[1].Bytes(1));
        // LogRecord.severity_number = 2 (9 is INFO), body = 5, AnyValue.string_value = 1.
        record.Number(2).Should().Be(9);
        record.Message(5).Text(1).Should().StartWith("Refused a request").And.Contain("red\\u001B[31m-rule");
    }

    [Fact]
    public async Task Exports_NameTheServiceAndNothingThatAClientSent()
    {
        await using OtlpReceiver receiver = await OtlpReceiver.StartAsync(OtlpProtocol.Grpc);
        await RunAsync(receiver, OtlpProtocol.Grpc);

        foreach (string signal in new[] { "metrics", "traces", "logs" })
        {
            receiver.Of(signal).Should().NotBeEmpty().And.AllSatisfy(export => OtlpReading.ResourceOf(export).Should()
                .Contain("service.name", "portwitness").And.ContainKeys("service.version", "service.instance.id"));
        }

        foreach (string export in receiver.Raw)
        {
            export.Should().NotContainAny(OfClients);
        }
    }

    [Theory]
    [InlineData(null, true)]
    [InlineData("true", false)]
    public async Task Environment_NamesTheCollector(string? isDisabled, bool isExported)
    {
        await using OtlpReceiver receiver = await OtlpReceiver.StartAsync(OtlpProtocol.Http);
        using EnvironmentValues environment = new(
            ("OTEL_EXPORTER_OTLP_ENDPOINT", $"{receiver.Address}"), ("OTEL_EXPORTER_OTLP_PROTOCOL", "http/protobuf"),
            ("OTEL_SERVICE_NAME", "bench-4"), ("OTEL_SDK_DISABLED", isDisabled));
        await WatchedService.RunAsync(new TelemetrySettings());

        receiver.Of("traces").Any().Should().Be(isExported);
        receiver.Of("metrics").Select(export => OtlpReading.ResourceOf(export)["service.name"]).Distinct()
            .Should().Equal(isExported ? ["bench-4"] : Array.Empty<string>());
    }

    [Fact]
    public async Task ServiceThatIsToldOfNoTelemetry_ExportsNothing()
    {
        await using OtlpReceiver receiver = await OtlpReceiver.StartAsync(OtlpProtocol.Http);
        using EnvironmentValues environment = new(("OTEL_EXPORTER_OTLP_ENDPOINT", $"{receiver.Address}"));
        await WatchedService.RunAsync(settings: null);

        receiver.Raw.Should().BeEmpty();
    }

    // Each message of the open format is a line with its bytes.
    private static long MessagesInFiles() => Directory
        .EnumerateFiles(Repository.PathOf("captures", WatchedService.Product), "*.capture.jsonl")
        .Sum(static file => File.ReadLines(file).Count(static line => line.Contains("\"hex\":", StringComparison.Ordinal)));

    private static Task<ProductReport> RunAsync(OtlpReceiver receiver, OtlpProtocol protocol) => WatchedService.RunAsync(new TelemetrySettings
    {
        Otlp = receiver.Address,
        Protocol = protocol,
        Headers = $"x-collector-key={WatchedService.Secret}",
        Interval = TimeSpan.FromMinutes(1),
    });
}
