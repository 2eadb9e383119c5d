using System.Diagnostics.Metrics;
using Grpc.Core;
using Portwitness.Contracts.V1;
using Portwitness.Service.Hosting;
using Portwitness.Service.Telemetry;

namespace Portwitness.Service.Tests.Telemetry;

/// <summary>What is counted within a process, without a server and without any exporter.</summary>
[Collection(AloneCollection.Name)]
public sealed class ServiceMetricsTests : IDisposable
{
    private readonly List<string> _counted = [];
    private readonly MeterListener _listener = new();

    public ServiceMetricsTests()
    {
        _listener.InstrumentPublished = static (instrument, listener) =>
        {
            if (instrument.Meter.Name == ServiceMetrics.SourceName)
            {
                listener.EnableMeasurementEvents(instrument);
            }
        };
        _listener.SetMeasurementEventCallback<long>((instrument, value, tags, _) =>
        {
            lock (_counted)
            {
                _counted.Add($"{instrument.Name} {value}{string.Concat(tags.ToArray().Select(static tag => $" {tag.Value}"))}");
            }
        });
        _listener.Start();
    }

    public void Dispose() => _listener.Dispose();

    [Fact]
    public async Task FileBeyondTheLimit_IsRejectedForItsSize()
    {
        Witness.WitnessClient client = new(ServiceHost.Embed(new ServiceLimits { FileBytes = 3 }));
        Func<Task> check = () => client.CheckAsync(
            _ => [Checking.Data("{\"capture\":1}")],
            new CheckRequest { Options = new CheckOptions { Capture = new LooseCapture { File = "secret-name.jsonl" } } });

        await check.Should().ThrowAsync<RpcException>();

        _counted.Should().Contain("portwitness.rejections 1 size").And.Contain("portwitness.calls 1 Check InvalidArgument")
            .And.NotContain(row => row.Contains("secret-name", StringComparison.Ordinal));
    }

    [Fact]
    public async Task LabelBeyondTheLimit_IsRejectedForItsSize()
    {
        Witness.WitnessClient client = new(ServiceHost.Embed(new ServiceLimits { TextBytes = 3 }));
        Func<Task> read = async () => await client.ReadLabelAsync(new ReadLabelRequest { Text = "5V 3A" });

        await read.Should().ThrowAsync<RpcException>();

        _counted.Should().Equal("portwitness.rejections 1 size", "portwitness.calls 1 ReadLabel InvalidArgument");
    }

    [Fact]
    public async Task NameThatIsNotFound_IsNoRejection()
    {
        Witness.WitnessClient client = new(ServiceHost.Embed(new ServiceLimits()));
        Func<Task> list = async () => await client.ListRulesAsync(new ListRulesRequest { Name = "no-such-rule" });

        await list.Should().ThrowAsync<RpcException>();

        _counted.Should().Equal("portwitness.calls 1 ListRules NotFound");
    }

    [Fact]
    public void RuleThatTheCatalogueDoesNotHave_MakesNoRowOfItsOwn() => MetricTags.Rule("told by a client").Should().Be("other");

    [Fact]
    public void Reasons_AreNamed()
    {
        using ServiceMetrics metrics = new();
        foreach (RejectionReason reason in Enum.GetValues<RejectionReason>())
        {
            metrics.Rejected(reason);
        }

        _counted.Should().Equal(Enum.GetValues<RejectionReason>().Select(reason => $"portwitness.rejections 1 {reason.ToString().ToLowerInvariant()}"));
    }

    [Fact]
    public void Queue_IsObservedWhenSomebodyTells()
    {
        using ServiceMetrics metrics = new();
        _listener.RecordObservableInstruments();
        _counted.Should().BeEmpty();
        metrics.QueueDepth = () => 4;
        metrics.QueueParked = () => 2;

        _listener.RecordObservableInstruments();

        _counted.Should().BeEquivalentTo("portwitness.queue.depth 4", "portwitness.queue.parked 2");
    }
}
