using Microsoft.AspNetCore.Builder;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.History.Stores;
using Portwitness.Queue;
using Portwitness.Server.Http;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Telemetry;
using Portwitness.Service.Validation;
using Portwitness.Service.Working;

namespace Portwitness.Server.Tests;

/// <summary>The service with HTTP on a free port of the loopback.</summary>
internal sealed class HttpService : IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("portwitness-");
    private readonly IWorkQueue _queue = WorkQueues.Open(null);
    private WebApplication _app = null!;

    public string StorePath => Path.Combine(_folder.FullName, "reports.db");

    public IReportStore Store { get; private set; } = null!;

    public HttpClient Client { get; private set; } = null!;

    public ServiceMetrics Metrics => _app.Services.GetRequiredService<ServiceMetrics>();

    public static async Task<HttpService> StartAsync(AccessSettings? doors = null, ServiceLimits? limits = null, Func<IReportStore, IReportStore>? place = null)
    {
        HttpService service = new();
        service.Store = await ReportStores.OpenAsync(service.StorePath, default);
        ListenAddress.TryParse("http://127.0.0.1:0", out ListenAddress? address, out _).Should().BeTrue();
        service._app = ServiceHost.Build(
            [address!], limits ?? new ServiceLimits(), _ => { }, place?.Invoke(service.Store) ?? service.Store, doors, work: new ServiceWork(service._queue, new WorkSettings()), extension: HttpExtension.For([address!]));
        await service._app.StartAsync();
        service.Client = new HttpClient { BaseAddress = new Uri(service._app.Urls.Last()) };
        return service;
    }

    public Task<long> KeepAsync(string product, string sample = "1") => Store.SaveAsync(
        Guid.NewGuid().ToString("n"), new ProductReport { Product = product, Sample = sample, Verdict = Verdict.Fails, ToolVersion = "0.1.0" }, default);

    public async Task<(int Status, string Body)> GetAsync(string address)
    {
        using HttpResponseMessage response = await Client.GetAsync(new Uri(address, UriKind.Relative));
        return ((int)response.StatusCode, await response.Content.ReadAsStringAsync());
    }

    public async Task<(int Status, string Body)> PostAsync(string address, string json, string type = "application/json")
    {
        using StringContent content = new(json, System.Text.Encoding.UTF8, type);
        using HttpResponseMessage response = await Client.PostAsync(new Uri(address, UriKind.Relative), content);
        return ((int)response.StatusCode, await response.Content.ReadAsStringAsync());
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        await _queue.DisposeAsync();
        await Store.DisposeAsync();
        SqliteConnection.ClearAllPools();
        _folder.Delete(recursive: true);
    }
}
