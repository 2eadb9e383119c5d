using Grpc.Core;
using Microsoft.Extensions.Logging;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Service.Hosting;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Tests.Access;
using Portwitness.Service.Validation;
using Portwitness.Tests;

namespace Portwitness.Service.Tests.Telemetry;

/// <summary>What is counted within a process, without a server and without any exporter.</summary>
[Collection(AloneCollection.Name)]
public sealed class ServiceMetricsTests : IDisposable
{
    private readonly CountedRows _counted = new(static instrument => instrument.Meter.Name == ServiceMetrics.SourceName);

    public void Dispose() => _counted.Dispose();

    [Fact]
    public async Task FileBeyondTheLimit_IsRejectedForItsSize()
    {
        Witness.WitnessClient client = new(ServiceHost.Embed(new ServiceLimits { FileBytes = 3 }));
        Func<Task> check = () => client.CheckAsync(
            _ => [Checking.Data("{\"capture\":1}")],
            new CheckRequest { Options = new CheckOptions { Capture = new LooseCapture { File = "secret-name.jsonl" } } });

        await check.Should().ThrowAsync<RpcException>();

        _counted.Rows.Should().Contain("portwitness.rejections 1 size").And.Contain("portwitness.calls 1 Check InvalidArgument")
            .And.NotContain(row => row.Contains("secret-name", StringComparison.Ordinal));
    }

    [Fact]
    public async Task LabelBeyondTheLimit_IsRejectedForItsSize()
    {
        Witness.WitnessClient client = new(ServiceHost.Embed(new ServiceLimits { TextBytes = 3 }));
        Func<Task> read = async () => await client.ReadLabelAsync(new ReadLabelRequest { Text = "5V 3A" });

        await read.Should().ThrowAsync<RpcException>();

        _counted.Rows.Should().Equal("portwitness.rejections 1 size", "portwitness.calls 1 ReadLabel InvalidArgument");
    }

    [Fact]
    public async Task NameThatIsNotFound_IsNoRejection()
    {
        Witness.WitnessClient client = new(ServiceHost.Embed(new ServiceLimits()));
        Func<Task> list = async () => await client.ListRulesAsync(new ListRulesRequest { Name = "no-such-rule" });

        await list.Should().ThrowAsync<RpcException>();

        _counted.Rows.Should().Equal("portwitness.calls 1 ListRules NotFound");
    }

    [Fact]
    public void RuleThatTheCatalogueDoesNotHave_MakesNoRowOfItsOwn() => MetricTags.Rule("told by a client").Should().Be("other");

    [Fact]
    public async Task RefusalsAtTheDoor_AreCountedByTheirReason()
    {
        await using AccessHost host = await AccessHost.StartAsync("tokens", new ServiceLimits { CallsAtOnce = 1, CallsPerSecond = 2 });
        Witness.WitnessClient client = host.Client();
        Metadata busy = AccessHost.Bearer(await host.NewTokenAsync(TokenRole.Submit));
        Metadata quick = AccessHost.Bearer(await host.NewTokenAsync(TokenRole.Read));

        await Call.StatusOfAsync(async () => await client.ListSinksAsync(new ListSinksRequest()));
        await Call.StatusOfAsync(async () => await client.ListSinksAsync(new ListSinksRequest(), AccessHost.Bearer("pw_0")));
        await Call.StatusOfAsync(async () => await client.RetrySubmissionAsync(new RetrySubmissionRequest(), quick));
        Counted("portwitness.rejections 1 token").Should().Be(3);

        using AsyncDuplexStreamingCall<DecodeRequest, DecodeResponse> open = client.Decode(busy);
        await open.RequestStream.WriteAsync(new DecodeRequest { Options = new DecodeOptions { File = "a" } });

        // A connection carries no more streams than a client may have at once: what has to be refused comes by another.
        Witness.WitnessClient other = host.Client();
        await Eventually.BeAsync(async () =>
        {
            await Call.StatusOfAsync(async () => await other.ListSinksAsync(new ListSinksRequest(), busy));
            return Counted("portwitness.rejections 1 streams") > 0;
        });

        for (int call = 0; call < 20; call++)
        {
            await Call.StatusOfAsync(async () => await other.ListSinksAsync(new ListSinksRequest(), quick));
        }

        Counted("portwitness.rejections 1 rate").Should().BePositive();
    }

    [Fact]
    public async Task MessagesThatTheServiceNeverSees_AreCounted_AndOthersOnce()
    {
        await using AccessHost host = await AccessHost.StartAsync(limits: new ServiceLimits { MessageBytes = 1000, TextBytes = 100 });
        Witness.WitnessClient client = host.Client();
        async Task<StatusCode> ReadAsync(int length) =>
            (await Call.StatusOfAsync(async () => await client.ReadLabelAsync(new ReadLabelRequest { Text = new string('5', length) }))).StatusCode;

        (await ReadAsync(2000)).Should().Be(StatusCode.ResourceExhausted);
        Counted("portwitness.rejections 1 size").Should().Be(1);
        (await ReadAsync(200)).Should().Be(StatusCode.InvalidArgument);
        Counted("portwitness.rejections 1 size").Should().Be(2);

        using AsyncDuplexStreamingCall<byte[], byte[]> call = Call.Open(host.Connect(), Witness.Descriptor.FullName, "ReadLabel");
        await call.RequestStream.WriteAsync([0]);
        (await Call.StatusOfAsync(() => call.ResponseStream.MoveNext(CancellationToken.None))).StatusCode.Should().Be(StatusCode.InvalidArgument);
        Counted("portwitness.rejections 1 invalid").Should().Be(1);

        (await ReadAsync(20)).Should().Be(StatusCode.OK);
        Counted("portwitness.rejections 1 size").Should().Be(2);
        Counted("portwitness.rejections 1 invalid").Should().Be(1);
    }

    private int Counted(string row) => _counted.Rows.Count(one => one == row);

    [Fact]
    public async Task WithoutACollector_ALineTellsWhatWasCounted()
    {
        using KeptLogs logs = new();
        await WatchedService.RunAsync(new TelemetrySettings { Interval = TimeSpan.FromMinutes(5) }, logging => logging.SetMinimumLevel(LogLevel.Information).AddProvider(logs));

        string line = logs.Messages.Single(static message => message.StartsWith("In ", StringComparison.Ordinal));
        line.Should().MatchRegex(
            @"^In \d+ s: call\.duration \d+ within [0-9.]+ s.*; calls 1 Check InvalidArgument, 1 Check OK; captures 4; findings .*; messages \d+; products 1 fails; queue\.depth 3; received \d+; rejections 1 invalid\.");
    }

    [Fact]
    public async Task WithoutAnyCall_ThereIsNoLine()
    {
        using KeptLogs logs = new();
        await using (AccessHost host = await AccessHost.StartAsync(logs: logging => logging.SetMinimumLevel(LogLevel.Information).AddProvider(logs), telemetry: new TelemetrySettings { Interval = TimeSpan.FromMilliseconds(20) }))
        {
            await Task.Delay(100);
        }

        logs.Messages.Should().NotContain(static message => message.StartsWith("In ", StringComparison.Ordinal));
    }

    [Fact]
    public void Reasons_AreNamed()
    {
        using ServiceMetrics metrics = new();
        foreach (RejectionReason reason in Enum.GetValues<RejectionReason>())
        {
            metrics.Rejected(reason);
        }

        _counted.Rows.Should().Equal(Enum.GetValues<RejectionReason>().Select(reason => $"portwitness.rejections 1 {reason.ToString().ToLowerInvariant()}"));
    }

    [Fact]
    public void Queue_IsObservedWhenSomebodyTells()
    {
        using ServiceMetrics metrics = new();
        _counted.Observe();
        _counted.Rows.Should().BeEmpty();
        metrics.QueueDepth = () => 4;
        metrics.QueueParked = () => 2;

        _counted.Observe();

        _counted.Rows.Should().BeEquivalentTo("portwitness.queue.depth 4", "portwitness.queue.parked 2");
    }
}
