using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using OpenTelemetry.Metrics;
using Portwitness.Contracts.V1;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Tests.Telemetry;

/// <summary>A service as `serve` runs it, which exports to a receiver, and what it has answered.</summary>
internal sealed class WatchedService
{
    /// <summary>A demo product with four captures and findings.</summary>
    public const string Product = "dishonest-th100";

    /// <summary>A header for the collector that nothing else may show.</summary>
    public const string Secret = "open-sesame-4711";

    /// <summary>A trace that a client says it is part of, and a state with a text of the client's.</summary>
    public const string Trace = "0af7651916cd43dd8448eb211c80319c";

    /// <summary>Is refused; its control character would redden a terminal.</summary>
    public const string NoRule = "red\u001b[31m-rule";

    /// <summary>Answers one Check of a demo product, and a Check that is refused, and ends; then all is exported.</summary>
    public static async Task<ProductReport> RunAsync(TelemetrySettings? settings, Action<ILoggingBuilder>? logs = null)
    {
        ListenAddress.TryParse("http://127.0.0.1:0", out ListenAddress? address, out _).Should().BeTrue();
        await using WebApplication app = ServiceHost.Build(
            [address!], new ServiceLimits(), logs ?? (static logging => logging.SetMinimumLevel(LogLevel.Warning)), telemetry: settings);
        await app.StartAsync();
        app.Services.GetRequiredService<ServiceMetrics>().QueueDepth = () => 3;
        using GrpcChannel channel = GrpcChannel.ForAddress(app.Urls.Single());
        Witness.WitnessClient client = new(channel);
        ProductReport report = await client.CheckDemoAsync(Product);
        await RefuseAsync(client);
        // As after an interval: gauges are not asked any more when a service ends.
        app.Services.GetService<MeterProvider>()?.ForceFlush();
        await app.StopAsync();
        return report;
    }

    private static async Task RefuseAsync(Witness.WitnessClient client)
    {
        Metadata headers = new()
        {
            { "traceparent", $"00-{Trace}-b7ad6b7169203331-01" },
            { "tracestate", "vendor=told-by-client" },
        };
        CheckRequest wrong = Checking.OfProduct("product: x");
        wrong.Options.Rules = new RuleSelection { Only = { NoRule } };
        using AsyncDuplexStreamingCall<CheckRequest, CheckResponse> call = client.Check(headers);
        await call.RequestStream.WriteAsync(wrong);
        Func<Task> answer = () => call.ResponseStream.MoveNext(CancellationToken.None);
        (await answer.Should().ThrowAsync<RpcException>()).Which.StatusCode.Should().Be(StatusCode.InvalidArgument);
    }
}
