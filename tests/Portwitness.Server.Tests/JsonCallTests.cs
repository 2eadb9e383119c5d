using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Portwitness.Service;
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
    [InlineData("/v1/reports/x", 400, "not in a correct format")]
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
    [InlineData("{", 400)]
    [InlineData("[]", 400)]
    [InlineData("{\"text\":5}", 400)]
    [InlineData("{\"unknown\":{\"a\":[1,2,3]}}", 200)]
    [InlineData("null", 400)]
    [InlineData("", 400)]
    public async Task BrokenJson_IsRefusedInWords(string json, int expected)
    {
        await using HttpService service = await HttpService.StartAsync();

        (int status, string body) = await service.PostAsync("/v1/labels:read", json);

        status.Should().Be(expected, body);
        body.Should().NotContain("   at ");
    }

    [Fact]
    public async Task TooMuch_TooDeep_OrOfAnotherType_IsRefused()
    {
        await using HttpService service = await HttpService.StartAsync(limits: new ServiceLimits { MessageBytes = 100_000, TextBytes = 1000 });

        (await service.PostAsync("/v1/labels:read", $"{{\"text\":\"{new string('x', 300_000)}\"}}")).Status.Should().BeOneOf(400, 413, 429);
        (await service.PostAsync("/v1/labels:read", $"{{\"text\":\"{new string('x', 2000)}\"}}")).Body.Should().Contain("at most 1000");
        (await service.PostAsync("/v1/labels:read", new StringBuilder().Insert(0, "{\"a\":", 5000).ToString())).Status.Should().Be(400);
        (await service.PostAsync("/v1/labels:read", "{\"text\":\"5V 3A\"}", "text/plain")).Status.Should().Be(400);
        using HttpRequestMessage large = new(HttpMethod.Get, "/v1/rules");
        large.Headers.Add("X-Large", new string('x', 100_000));
        (await service.Client.SendAsync(large)).StatusCode.Should().Be(HttpStatusCode.RequestHeaderFieldsTooLarge);
        using HttpRequestMessage trace = new(HttpMethod.Trace, "/v1/rules");
        ((int)(await service.Client.SendAsync(trace)).StatusCode).Should().BeOneOf(404, 405);
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
