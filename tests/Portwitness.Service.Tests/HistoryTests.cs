using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.History.Stores;
using Portwitness.Service.Access;
using Portwitness.Service.Hosting;
using Portwitness.Service.Validation;

namespace Portwitness.Service.Tests;

/// <summary>Reports of a service that keeps them: pages, and what it refuses.</summary>
public sealed class HistoryTests : IAsyncLifetime
{
    private const int Kept = 5;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("portwitness-");
    private IReportStore _store = null!;
    private WebApplication _app = null!;
    private GrpcChannel _channel = null!;

    private Witness.WitnessClient Client => new(_channel);

    public async Task InitializeAsync()
    {
        _store = await ReportStores.OpenAsync(Path.Combine(_folder.FullName, "reports.db"), CancellationToken.None);
        for (int number = 1; number <= Kept; number++)
        {
            await _store.SaveAsync($"{number}", new ProductReport { Product = "Tarnholt TH-27", Sample = $"{number}" }, CancellationToken.None);
        }

        ListenAddress.TryParse("http://127.0.0.1:0", out ListenAddress? address, out _).Should().BeTrue();
        _app = ServiceHost.Build([address!], new ServiceLimits(), _ => { }, _store);
        await _app.StartAsync();
        _channel = GrpcChannel.ForAddress(_app.Urls.Single());
    }

    public async Task DisposeAsync()
    {
        _channel.Dispose();
        await _app.DisposeAsync();
        await _store.DisposeAsync();
        _folder.Delete(recursive: true);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    public async Task Pages_HaveEachReportOnce(int size)
    {
        List<string> samples = [];
        ListReportsRequest request = new() { PageSize = size };
        do
        {
            ListReportsResponse page = await Client.ListReportsAsync(request);
            page.Reports.Count.Should().BeLessThanOrEqualTo(size);
            samples.AddRange(page.Reports.Select(static report => report.Sample));
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);

        samples.Should().Equal("5", "4", "3", "2", "1");
    }

    [Fact]
    public async Task WhatCannotBeAsked_NamesEachField() =>
        (await RefusedCall.FieldsOfAsync(async () => await Client.ListReportsAsync(new ListReportsRequest
        {
            Product = new string('x', 5000), PageSize = 100_000, PageToken = "-3", SinceUs = -1, UntilUs = long.MaxValue,
        }))).Should().BeEquivalentTo("product", "page_size", "page_token", "since_us", "until_us");

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(long.MaxValue)]
    public async Task NumberOfNoReport_IsNotFound(long number) =>
        (await Client.Invoking(async client => await client.GetReportAsync(new GetReportRequest { Id = number })).Should().ThrowAsync<RpcException>())
            .Which.StatusCode.Should().Be(StatusCode.NotFound);

    [Fact]
    public async Task ServiceWithoutAStore_SaysSo()
    {
        Witness.WitnessClient without = new(ServiceHost.Embed(new ServiceLimits()));

        (await without.Invoking(async client => await client.ListReportsAsync(new ListReportsRequest())).Should().ThrowAsync<RpcException>())
            .Which.Status.Detail.Should().Contain("--store");
    }
}
