using Google.Protobuf;
using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Microsoft.Data.Sqlite;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.History.Stores;
using Portwitness.Queue;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Validation;
using Portwitness.Service.Working;
using Portwitness.Tests;

namespace Portwitness.Service.Tests.Submitting;

/// <summary>A service with a store and a queue; nodes can be stopped and started on the same store.</summary>
internal sealed class SubmittingService : IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("portwitness-");
    private WebApplication? _app;
    private IWorkQueue? _queue;
    private GrpcChannel? _channel;

    public IReportStore Store { get; private set; } = null!;

    public string Database => Path.Combine(_folder.FullName, "reports.db");

    public Witness.WitnessClient Client => new(_channel);

    public static WorkSettings Quick => new()
    {
        AtOnce = 2, Pause = TimeSpan.FromMilliseconds(20), StorePause = TimeSpan.FromMilliseconds(10), LongestStorePause = TimeSpan.FromMilliseconds(100), Sweep = TimeSpan.FromMilliseconds(200), Drain = TimeSpan.FromSeconds(20),
    };

    public static async Task<SubmittingService> StartAsync(
        WorkSettings? settings = null, ServiceLimits? limits = null, Func<IReportStore, IReportStore>? wrap = null)
    {
        SubmittingService service = new();
        IReportStore store = await ReportStores.OpenAsync(service.Database, default);
        service.Store = wrap is null ? store : wrap(store);
        await service.StartNodeAsync(settings ?? Quick, limits);
        return service;
    }

    public async Task StartNodeAsync(WorkSettings settings, ServiceLimits? limits = null, IWorkQueue? queue = null)
    {
        ListenAddress.TryParse("http://127.0.0.1:0", out ListenAddress? address, out _).Should().BeTrue();
        _queue = queue ?? WorkQueues.Open(null);
        _app = ServiceHost.Build([address!], limits ?? new ServiceLimits(), _ => { }, Store, work: new ServiceWork(_queue, settings));
        await _app.StartAsync();
        _channel = GrpcChannel.ForAddress(_app.Urls.Single(), new GrpcChannelOptions { MaxReceiveMessageSize = null });
    }

    public async Task StopNodeAsync()
    {
        _channel!.Dispose();
        await _app!.StopAsync();
        await _app.DisposeAsync();
        await _queue!.DisposeAsync();
    }

    /// <summary>A product folder of the demo with all of its files.</summary>
    public static SubmitRequest Demo(string folder, string edition = "")
    {
        string path = Repository.PathOf("captures", folder);
        SubmitRequest request = new()
        {
            Options = new CheckOptions { Product = new ProductFile { File = "product.yaml", Text = File.ReadAllText(Path.Combine(path, "product.yaml")) }, Edition = edition },
        };
        request.Files.AddRange(Directory.GetFiles(path).Where(static file => Path.GetFileName(file) is not ("product.yaml" or "README.md"))
            .Select(static file => new SubmittedFile { File = Path.GetFileName(file), Data = ByteString.CopyFrom(File.ReadAllBytes(file)) }));
        return request;
    }

    public async Task<Submission> WaitForAsync(string key, SubmissionState state = SubmissionState.Done)
    {
        using CancellationTokenSource patience = new(TimeSpan.FromSeconds(60));
        while (true)
        {
            Submission submission = await Client.GetSubmissionAsync(new GetSubmissionRequest { Key = key }, cancellationToken: patience.Token);
            if (submission.State == state)
            {
                return submission;
            }

            await Task.Delay(20, patience.Token);
        }
    }

    public async Task<RpcException> RefusalOfAsync(Func<Witness.WitnessClient, Task> call) => await Assert.ThrowsAsync<RpcException>(() => call(Client));

    public async ValueTask DisposeAsync()
    {
        await StopNodeAsync();
        await Store.DisposeAsync();
        SqliteConnection.ClearAllPools();
        _folder.Delete(recursive: true);
    }
}

/// <summary>Changes of requests.</summary>
internal static class SubmitRequests
{
    /// <summary>The same with only so many of its files.</summary>
    public static SubmitRequest With(this SubmitRequest request, int files)
    {
        SubmittedFile[] kept = [.. request.Files.Take(files)];
        request.Files.Clear();
        request.Files.AddRange(kept);
        return request;
    }
}
