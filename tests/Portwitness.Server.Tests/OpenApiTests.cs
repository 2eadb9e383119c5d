using System.Text.Json;
using System.Text.Json.Nodes;
using Google.Api;
using Json.Schema;
using Portwitness.Contracts.V1;
using Portwitness.Tests;

namespace Portwitness.Server.Tests;

/// <summary>The OpenAPI document: whole, and true of what the service answers. Structure: OpenAPI Specification 3.1.0, 4.8.</summary>
public sealed class OpenApiTests
{
    // The library that evaluates it loses patterns with a slash; an escaped one is the same pattern.
    private static readonly JsonSchema Published = JsonSchema.FromText(
        File.ReadAllText(Repository.PathOf("tests", "Portwitness.Server.Tests", "Schemas", "openapi-3.1.json")).Replace("\"^/\"", "\"^\\\\x2f\"", StringComparison.Ordinal));

    [Fact]
    public async Task Document_KeepsToThePublishedSchema()
    {
        JsonNode document = await DocumentAsync();

        FaultsOf(Published, document).Should().BeEmpty();
        document["paths"]!["/v1/reports"]!["get"]!["operationId"] = 5;
        FaultsOf(Published, document).Should().NotBeEmpty("the schema finds what is wrong");
    }

    [Fact]
    public async Task Schemas_AreThemselvesJsonSchema()
    {
        foreach ((string name, JsonNode? schema) in (await DocumentAsync())["components"]!["schemas"]!.AsObject())
        {
            FaultsOf(MetaSchemas.Draft202012, schema!).Should().BeEmpty(name);
        }
    }

    [Fact]
    public async Task EveryCallWithAnAddress_IsDescribed()
    {
        JsonNode document = await DocumentAsync();
        IEnumerable<string> described = document["paths"]!.AsObject().SelectMany(static path => path.Value!.AsObject().Select(static verb => verb.Value!["operationId"]!.GetValue<string>()));
        IEnumerable<string> annotated = Witness.Descriptor.Methods.Where(static method => method.GetOptions()?.GetExtension(AnnotationsExtensions.Http) is not null).Select(static method => method.Name);

        document["openapi"]!.GetValue<string>().Should().Be("3.1.0");
        described.Should().BeEquivalentTo(annotated).And.HaveCountGreaterThan(8);
    }

    [Fact]
    public async Task EveryReference_LeadsSomewhere()
    {
        string text = (await DocumentAsync()).ToJsonString();
        JsonObject schemas = JsonNode.Parse(text)!["components"]!["schemas"]!.AsObject();
        string[] references = [.. text.Split("\"#/components/schemas/").Skip(1).Select(static part => part[..part.IndexOf('"', StringComparison.Ordinal)])];

        references.Should().NotBeEmpty().And.OnlyContain(name => schemas.ContainsKey(name));
    }

    [Fact]
    public async Task PathFields_AreRequiredParameters()
    {
        foreach ((string path, JsonNode? verbs) in (await DocumentAsync())["paths"]!.AsObject())
        {
            foreach ((_, JsonNode? operation) in verbs!.AsObject())
            {
                IEnumerable<string> required = (operation!["parameters"]?.AsArray() ?? []).Where(static one => one!["in"]!.GetValue<string>() == "path")
                    .Select(static one => one!["name"]!.GetValue<string>());
                required.Should().BeEquivalentTo(path.Split('{').Skip(1).Select(static part => part[..part.IndexOf('}', StringComparison.Ordinal)]));
                operation["responses"]!.AsObject().Select(static one => one.Key).Should().BeEquivalentTo("200", "default");
            }
        }
    }

    [Theory]
    [InlineData("/v1/rules", "portwitness.v1.ListRulesResponse")]
    [InlineData("/v1/sinks", "portwitness.v1.ListSinksResponse")]
    [InlineData("/v1/reports/1", "portwitness.v1.ProductReport")]
    [InlineData("/v1/reports/99", "google.rpc.Status")]
    public async Task Answers_FitTheirSchemas(string address, string schema)
    {
        await using HttpService service = await HttpService.StartAsync();
        await service.KeepAsync("Tarnholt TH-65");
        JsonNode document = JsonNode.Parse((await service.GetAsync("/openapi.json")).Body)!;
        JsonObject whole = new()
        {
            ["$ref"] = $"#/$defs/{schema}", ["$defs"] = document["components"]!["schemas"]!.DeepClone(),
        };

        using JsonDocument answer = JsonDocument.Parse((await service.GetAsync(address)).Body);

        FaultsOf(JsonSchema.FromText(whole.ToJsonString().Replace("#/components/schemas/", "#/$defs/", StringComparison.Ordinal)), answer.RootElement).Should().BeEmpty();
    }

    private static string[] FaultsOf(JsonSchema schema, JsonNode node)
    {
        using JsonDocument document = JsonDocument.Parse(node.ToJsonString());
        return FaultsOf(schema, document.RootElement);
    }

    private static string[] FaultsOf(JsonSchema schema, JsonElement element)
    {
        EvaluationResults results = schema.Evaluate(element, new EvaluationOptions { OutputFormat = OutputFormat.List });
        return results.IsValid ? []
            : ["not valid", .. results.Details?.Where(static one => one.Errors is not null).Select(static one => $"{one.InstanceLocation}: {string.Join(',', one.Errors!.Values)}") ?? []];
    }

    private static async Task<JsonNode> DocumentAsync()
    {
        await using HttpService service = await HttpService.StartAsync();
        return JsonNode.Parse((await service.GetAsync("/openapi.json")).Body)!;
    }
}
