using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using Portwitness.History;
using Portwitness.Service.Access;
using Portwitness.Service.Validation;
using Portwitness.Tests;

namespace Portwitness.Server.Tests;

/// <summary>Calls as JSON.</summary>
public sealed class JsonCallTests
{
    [Fact]
    public async Task ProductWithItsFiles_IsCheckedInOneRequest()
    {
        await using HttpService service = await HttpService.StartAsync();

        (int status, string body) = await service.PostAsync("/v1/products:check", Demo("broken-tp20").ToJsonString());

        status.Should().Be(200);
        JsonNode report = JsonNode.Parse(body)!;
        report["product"]!.GetValue<string>().Should().Be("Tarnholt TP-20 night pack");
        report["verdict"]!.GetValue<string>().Should().Be("fails");
        report["findings"]!.AsArray().Select(static one => one!["rule"]!.GetValue<string>()).Should().Contain("voltage-offered-twice");
    }

    [Fact]
    public async Task SubmittedProduct_IsFoundUnderItsKey()
    {
        await using HttpService service = await HttpService.StartAsync();

        (int status, string body) = await service.PostAsync("/v1/submissions", Demo("clean-th65").ToJsonString());
        string key = JsonNode.Parse(body)!["key"]!.GetValue<string>();
        JsonNode found;
        do
        {
            found = JsonNode.Parse((await service.GetAsync($"/v1/submissions/{key}")).Body)!;
        }
        while (found["state"]!.GetValue<string>() == "queued");

        status.Should().Be(200);
        found["state"]!.GetValue<string>().Should().Be("done");
        JsonNode report = JsonNode.Parse((await service.GetAsync($"/v1/reports/{found["reportId"]!.GetValue<string>()}")).Body)!;
        report["verdict"]!.GetValue<string>().Should().Be("holds");
        (await service.PostAsync($"/v1/submissions/{key}:retry", "")).Status.Should().Be(200);
        (await service.GetAsync("/v1/submissions?state=done")).Body.Should().Contain(key);
    }

    [Theory]
    [InlineData("/v1/rules?name=pps-range-not-standard", "\"name\":\"pps-range-not-standard\"")]
    [InlineData("/v1/sinks", "\"sinks\":[{")]
    [InlineData("/v1/reports?page_size=1", "\"reports\":[")]
    public async Task WhatIsRead_NeedsNoBody(string address, string expected)
    {
        await using HttpService service = await HttpService.StartAsync();

        (int status, string body) = await service.GetAsync(address);

        status.Should().Be(200);
        body.Should().Contain(expected);
    }

    [Theory]
    [InlineData("/v1/reports/99", 404, "No report has the number 99")]
    [InlineData("/v1/reports/x", 400, "id: 'x' is no int64.")]
    [InlineData("/v1/reports/99999999999999999999", 400, "id: '99999999999999999999' is no int64.")]
    [InlineData("/v1/reports?page_size=1e3", 400, "page_size: '1e3' is no int32.")]
    [InlineData("/v1/reports?verdict=BAD", 400, "verdict: 'BAD' is none of verdict_unspecified, holds, fails, cannot_tell.")]
    [InlineData("/v1/reports?sample=1&sample=2", 400, "sample: given twice.")]
    [InlineData("/v1/reports?page_size=1&pageSize=2", 400, "pageSize: given twice.")]
    [InlineData("/v1/reports?nope=1", 400, "nope: there is no such parameter; expected product, sample,")]
    [InlineData("/v1/reports/1?id=2", 400, "id: there is no such parameter")]
    [InlineData("/v1/reports?page_size=-1", 400, "page_size")]
    [InlineData("/v1/submissions/..%2F..%2Fetc%2Fpasswd", 400, "64 lower-case")]
    [InlineData("/v1/nothing", 404, null)]
    [InlineData("/../../etc/passwd", 404, null)]
    [InlineData("/reports/..%2f..%2fetc%2fpasswd", 404, null)]
    [InlineData("/reports/1/..%5c..", 404, "no such format")]
    public async Task WhatIsNotThere_IsSaidSo(string address, int expected, string? words)
    {
        await using HttpService service = await HttpService.StartAsync();

        (int status, string body) = await service.GetAsync(address);

        status.Should().Be(expected);
        body.Contains(words ?? "", StringComparison.Ordinal).Should().BeTrue(body);
        body.Should().NotContain("   at ").And.NotContain("root:");
    }

    [Theory]
    [InlineData("", "The body is empty")]
    [InlineData("null", "expected an object, found null.")]
    [InlineData("[1]", "expected an object, found an array.")]
    [InlineData("{\"options\": {}", "line 1, byte 15: no JSON that can be read")]
    [InlineData("{\n \"options\": nonsense}", "line 2, byte 14: no JSON that can be read")]
    [InlineData("{} {}", "line 1, byte 4: no JSON that can be read")]
    [InlineData("{\"options\": {}, \"options\": {}}", "options: given twice.")]
    [InlineData("{\"options\": {\"edition\": \"a\", \"\\u0065dition\": \"b\"}}", "options.edition: given twice.")]
    [InlineData("{\"nope\": 1}", "nope: there is no such field; expected options, files.")]
    [InlineData("{\"options\": 5}", "options: expected an object, found a number.")]
    [InlineData("{\"files\": {}}", "files: expected an array, found an object.")]
    [InlineData("{\"files\": [null]}", "files[0]: expected an object, found null.")]
    [InlineData("{\"options\": {\"plots\": \"true\"}}", "options.plots: expected true or false, found a string.")]
    [InlineData("{\"options\": {\"rules\": {\"only\": [\"a\", 5]}}}", "options.rules.only[1]: expected a string, found a number.")]
    [InlineData("{\"files\": [{\"data\": \"!!\"}]}", "files[0].data: expected bytes as base64.")]
    [InlineData("{\"files\": [{\"data\": \"\", \"sha256\": \"\"}]}", "files[0].sha256: only one of data, sha256, missing may be given.")]
    [InlineData("{\"options\": {\"edition\": \"\\ud800\"}}", "a text has bytes that are no UTF-8")]
    [InlineData("{\"\\ud800\": 1}", "a text has bytes that are no UTF-8")]
    public async Task BrokenJson_IsRefusedWithItsPlace(string json, string expected)
    {
        await using HttpService service = await HttpService.StartAsync();

        (int status, string body) = await service.PostAsync("/v1/products:check", json);

        status.Should().Be(400, body);
        JsonNode answer = JsonNode.Parse(body)!;
        answer["code"]!.GetValue<int>().Should().Be(3, "INVALID_ARGUMENT of google/rpc/code.proto");
        answer["message"]!.GetValue<string>().Should().StartWith(expected);
        body.Should().NotContain("   at ").And.NotContain("System.");
    }

    [Fact]
    public async Task OpenService_AnswersToNamesOfThisMachineOnly()
    {
        await using HttpService open = await HttpService.StartAsync();
        await using HttpService closed = await HttpService.StartAsync(new AccessSettings { RequireTokens = true });
        (_, string read) = await closed.Store.Tokens.CreateAsync("office", TokenRole.Read, null, default);
        closed.Client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", read);

        foreach ((string host, int expected) in new[]
        {
            ("bench.example", 421), ("192.0.2.1:8080", 421), ("localhost.bench.example", 421), ("localhost:8080", 200), ("127.0.0.1", 200), ("[::1]:8080", 200),
        })
        {
            foreach (string address in new[] { "/", "/v1/reports" })
            {
                (await StatusForAsync(open, address, host)).Should().Be(expected, host);
                (await StatusForAsync(closed, address, host)).Should().Be(200, host);
            }
        }
    }

    [Fact]
    public async Task TooMuch_TooDeep_OrOfAnotherType_IsRefused()
    {
        await using HttpService service = await HttpService.StartAsync(limits: new ServiceLimits { MessageBytes = 100_000, TextBytes = 1000 });

        (await service.PostAsync("/v1/labels:read", $"{{\"text\":\"{new string('x', 300_000)}\"}}")).Status.Should().Be(413);
        (await service.PostAsync("/v1/labels:read", $"{{\"text\":\"{new string('x', 2000)}\"}}")).Body.Should().Contain("at most 1000");
        (await service.PostAsync("/v1/labels:read", new StringBuilder().Insert(0, "{\"a\":", 5000).ToString())).Status.Should().Be(400);
        (await service.PostAsync("/v1/labels:read", "{\"text\":\"5V 3A\"}", "text/plain")).Status.Should().Be(415);
        using HttpRequestMessage large = new(HttpMethod.Get, "/v1/rules");
        large.Headers.Add("X-Large", new string('x', 100_000));
        (await service.Client.SendAsync(large)).StatusCode.Should().Be(HttpStatusCode.RequestHeaderFieldsTooLarge);
        using HttpRequestMessage trace = new(HttpMethod.Trace, "/v1/rules");
        ((int)(await service.Client.SendAsync(trace)).StatusCode).Should().BeOneOf(404, 405);
    }

    [Fact]
    public async Task Refusals_AreCounted_Once()
    {
        await using HttpService service = await HttpService.StartAsync(limits: new ServiceLimits { MessageBytes = 100_000, TextBytes = 1000 });
        using CountedRows counted = new(instrument => instrument.Name == "portwitness.rejections" && service.Metrics.Has(instrument));

        await service.PostAsync("/v1/labels:read", "{\"text\":\"5V 3A\"}");
        await service.PostAsync("/v1/labels:read", $"{{\"text\":\"{new string('x', 300_000)}\"}}");
        await service.PostAsync("/v1/labels:read", "{\"text\":");
        await service.GetAsync("/v1/rules?name=a&colour=b");
        await service.PostAsync("/v1/labels:read", $"{{\"text\":\"{new string('x', 2000)}\"}}");

        counted.Rows.Should().Equal(
            "portwitness.rejections 1 size", "portwitness.rejections 1 invalid", "portwitness.rejections 1 invalid", "portwitness.rejections 1 size");
    }

    private static async Task<int> StatusForAsync(HttpService service, string address, string host)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, address) { Headers = { Host = host } };
        using HttpResponseMessage response = await service.Client.SendAsync(request);
        return (int)response.StatusCode;
    }

    private static JsonObject Demo(string folder)
    {
        string path = Repository.PathOf("captures", folder);
        return new JsonObject
        {
            ["options"] = new JsonObject { ["product"] = new JsonObject { ["file"] = "product.yaml", ["text"] = File.ReadAllText(Path.Combine(path, "product.yaml")) } },
            ["files"] = new JsonArray([.. Directory.GetFiles(path, "*.jsonl").Concat(Directory.GetFiles(path, "*.csv")).Select(static file => new JsonObject
            {
                ["file"] = Path.GetFileName(file), ["data"] = Convert.ToBase64String(File.ReadAllBytes(file)),
            })]),
        };
    }
}
