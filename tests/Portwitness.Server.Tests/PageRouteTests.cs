using System.Net.Http.Headers;
using System.Text;
using Portwitness.History;
using Portwitness.Reports.Formats;
using Portwitness.Service.Access;

namespace Portwitness.Server.Tests;

/// <summary>Pages, files of reports, and who may have them.</summary>
public sealed class PageRouteTests
{
    [Fact]
    public async Task List_NamesReports_WhateverTheyAreCalled()
    {
        await using HttpService service = await HttpService.StartAsync();
        await service.KeepAsync("Tarnholt <script>alert(1)</script>\" & \u202e");
        long second = await service.KeepAsync("Tarnholt TH-27");

        (int status, string body) = await service.GetAsync("/");

        status.Should().Be(200);
        body.Should().Contain("Tarnholt &lt;script&gt;").And.NotContain("<script").And.NotContain("\u202e").And.Contain($"href=\"reports/{second}\"");
        (await service.GetAsync("/?product=TH-27&verdict=fails")).Body.Should().Contain("TH-27").And.NotContain("alert");
        (await service.GetAsync("/?product=%22%3E%3Cscript%3E&verdict=x")).Body.Should().NotContain("<script").And.Contain("No report fits");
        (await service.GetAsync("/?page_token=nonsense")).Status.Should().Be(400);
    }

    [Fact]
    public async Task OlderReports_AreOnFurtherPages()
    {
        await using HttpService service = await HttpService.StartAsync();
        for (int number = 0; number < 60; number++)
        {
            await service.KeepAsync($"Tarnholt {number}");
        }

        string first = (await service.GetAsync("/")).Body;
        string link = "/" + first[first.IndexOf("?product=", StringComparison.Ordinal)..];
        string second = (await service.GetAsync(System.Net.WebUtility.HtmlDecode(link[..link.IndexOf('"', StringComparison.Ordinal)]))).Body;

        first.Should().Contain("Tarnholt 59<").And.NotContain("Tarnholt 9<");
        second.Should().Contain("Tarnholt 9<").And.Contain("Tarnholt 0<").And.NotContain("Tarnholt 59<").And.NotContain("Older reports");
    }

    public static TheoryData<string> Formats => [.. ReportFormat.Names];

    [Theory]
    [MemberData(nameof(Formats))]
    public async Task EveryFormat_CanBeHad(string format)
    {
        await using HttpService service = await HttpService.StartAsync();
        long id = await service.KeepAsync("Tarnholt TH-27");
        using HttpResponseMessage response = await service.Client.GetAsync(new Uri($"/reports/{id}/{format}", UriKind.Relative));

        ((int)response.StatusCode).Should().Be(200);
        response.Headers.GetValues("X-Content-Type-Options").Should().Equal("nosniff");
        response.Headers.GetValues("Content-Security-Policy").Single().Should().Contain("default-src 'none'").And.Contain("frame-ancestors 'none'");
        (response.Content.Headers.ContentDisposition?.FileName ?? "").Should().Be(format == "html" ? "" : $"report-{id}{ReportFormat.Of(format).Ending}");
        (await response.Content.ReadAsByteArrayAsync()).Should().NotBeEmpty();
    }

    [Fact]
    public async Task ClosedDoor_OpensForTokens_AndKeepersAskWithoutOne()
    {
        await using HttpService service = await HttpService.StartAsync(new AccessSettings { RequireTokens = true });
        (_, string read) = await service.Store.Tokens.CreateAsync("office", TokenRole.Read, null, default);
        long id = await service.KeepAsync("Tarnholt TH-27");

        using HttpResponseMessage stranger = await service.Client.GetAsync(new Uri("/", UriKind.Relative));
        ((int)stranger.StatusCode).Should().Be(401);
        stranger.Headers.WwwAuthenticate.Select(static one => one.Scheme).Should().BeEquivalentTo("Bearer", "Basic");
        (await service.GetAsync($"/reports/{id}")).Status.Should().Be(401);
        (await service.GetAsync("/v1/reports")).Status.Should().Be(401);
        (await service.GetAsync("/livez")).Status.Should().Be(200);
        (await service.GetAsync("/readyz")).Status.Should().Be(200);

        service.Client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes($"anybody:{read}")));
        (await service.GetAsync("/")).Status.Should().Be(200);
        service.Client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", read);
        (await service.GetAsync("/v1/reports")).Status.Should().Be(200);
        (await service.PostAsync("/v1/labels:read", "{\"text\":\"5V 3A\"}")).Status.Should().Be(403, "the role is read");
        service.Client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Basic", "%%%");
        (await service.GetAsync("/")).Status.Should().Be(401);
    }

    [Fact]
    public async Task StoreThatIsGone_IsNotReady()
    {
        await using HttpService ready = await HttpService.StartAsync();
        await using HttpService away = await HttpService.StartAsync(place: static store => new AwayStore(store));

        (await ready.GetAsync("/readyz")).Should().Be((200, "ready\n"));
        (await away.GetAsync("/readyz")).Should().Be((503, "not ready: postgres://bench/x: the server does not answer.\n"));
        (await away.GetAsync("/livez")).Status.Should().Be(200);
        (await away.GetAsync("/reports/1")).Status.Should().Be(503);
    }

    /// <summary>A store whose server does not answer.</summary>
    private sealed class AwayStore(IReportStore store) : IReportStore
    {
        public string Place => store.Place;

        public ITokenStore Tokens => store.Tokens;

        public ISubmissionStore Submissions => store.Submissions;

        public IUploadStore Uploads => store.Uploads;

        public Task<long> SaveAsync(string key, Contracts.V1.ProductReport report, CancellationToken cancellation) => Task.FromException<long>(Away);

        public Task<IReadOnlyList<StoredReport>> ListAsync(ReportQuery query, CancellationToken cancellation) => Task.FromException<IReadOnlyList<StoredReport>>(Away);

        public Task<Contracts.V1.ProductReport?> FindAsync(long id, CancellationToken cancellation) => Task.FromException<Contracts.V1.ProductReport?>(Away);

        public Task<PrunedRows> CountPrunableAsync(PruneQuery query, CancellationToken cancellation) => store.CountPrunableAsync(query, cancellation);

        public Task<PrunedRows> PruneAsync(PruneQuery query, CancellationToken cancellation) => store.PruneAsync(query, cancellation);

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;

        private static StoreException Away => new("postgres://bench/x: the server does not answer.", true);
    }
}
