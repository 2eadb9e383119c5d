using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Google.Api;
using Google.Protobuf.Reflection;

namespace Portwitness.Server.Http;

/// <summary>An OpenAPI 3.1 document of a service's calls that have an address for HTTP, made from its descriptors alone.</summary>
internal static partial class OpenApiDocument
{
    private const string Json = "application/json";

    /// <summary>The document.</summary>
    public static JsonObject Of(ServiceDescriptor service)
    {
        OpenApiSchemas schemas = new();
        JsonObject paths = [];
        foreach (MethodDescriptor method in service.Methods)
        {
            if (method.GetOptions()?.GetExtension(AnnotationsExtensions.Http) is { } rule)
            {
                (string verb, string path) = rule.PatternCase == HttpRule.PatternOneofCase.Get ? ("get", rule.Get) : ("post", rule.Post);
                JsonObject at = paths[path] as JsonObject ?? [];
                paths[path] = at;
                at[verb] = Operation(method, rule, path, schemas);
            }
        }

        // What a call answers that fails.
        string error = schemas.NameOf(Google.Rpc.Status.Descriptor);
        foreach (JsonNode? operation in paths.SelectMany(static path => path.Value!.AsObject().Select(static verb => verb.Value)))
        {
            operation!["responses"]!["default"] = Answer("The call failed; the message says why.", error);
        }

        return new JsonObject
        {
            ["openapi"] = "3.1.0",
            ["info"] = new JsonObject
            {
                ["title"] = "Portwitness", ["version"] = typeof(OpenApiDocument).Assembly.GetName().Version!.ToString(3),
                ["description"] = "Tells whether a charger or power bank does what its label says. Numbers of 64 bits are strings, as in the canonical JSON of protocol buffers.",
            },
            ["security"] = new JsonArray(new JsonObject { ["token"] = new JsonArray() }, new JsonObject()),
            ["paths"] = paths,
            ["components"] = new JsonObject
            {
                ["schemas"] = schemas.All,
                ["securitySchemes"] = new JsonObject { ["token"] = new JsonObject { ["type"] = "http", ["scheme"] = "bearer" } },
            },
        };
    }

    private static JsonObject Operation(MethodDescriptor method, HttpRule rule, string path, OpenApiSchemas schemas)
    {
        string[] inPath = [.. PathFields().Matches(path).Select(static match => match.Groups[1].Value)];
        JsonObject operation = new()
        {
            ["operationId"] = method.Name,
            ["responses"] = new JsonObject { ["200"] = Answer("The answer.", schemas.NameOf(method.OutputType)) },
        };
        JsonArray parameters = [];
        foreach (FieldDescriptor field in method.InputType.Fields.InDeclarationOrder())
        {
            bool isInPath = inPath.Contains(field.Name);
            if (isInPath || (rule.Body.Length == 0 && field.FieldType != FieldType.Message))
            {
                JsonObject parameter = new() { ["name"] = isInPath ? field.Name : field.JsonName, ["in"] = isInPath ? "path" : "query", ["schema"] = schemas.OfField(field) };
                if (isInPath)
                {
                    parameter["required"] = true;
                }

                parameters.Add(parameter);
            }
        }

        if (parameters.Count > 0)
        {
            operation["parameters"] = parameters;
        }

        if (rule.Body.Length > 0)
        {
            operation["requestBody"] = new JsonObject { ["required"] = true, ["content"] = Content(schemas.NameOf(method.InputType)) };
        }

        return operation;
    }

    private static JsonObject Answer(string description, string schema) => new() { ["description"] = description, ["content"] = Content(schema) };

    private static JsonObject Content(string schema) => new() { [Json] = new JsonObject { ["schema"] = OpenApiSchemas.Reference(schema) } };

    [GeneratedRegex(@"\{(\w+)\}")]
    private static partial Regex PathFields();
}
