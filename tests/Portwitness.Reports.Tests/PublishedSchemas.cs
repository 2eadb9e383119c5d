using System.Text.Json.Nodes;
using System.Xml;
using System.Xml.Schema;
using Json.Schema;

namespace Portwitness.Tests;

/// <summary>The published schemas that reports are held against; Schemas/README.md says where they are from.</summary>
internal static class PublishedSchemas
{
    private static readonly JsonSchema Sarif = ReadSarif();
    private static readonly XmlSchemaSet Junit = ReadJunit();

    /// <summary>What a text breaks of SARIF's schema; nothing when it keeps to it.</summary>
    public static IReadOnlyList<string> SarifFaults(string text)
    {
        using System.Text.Json.JsonDocument document = System.Text.Json.JsonDocument.Parse(text);
        EvaluationResults results = Sarif.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        return results.IsValid ? [] :
        [
            .. (results.Details ?? []).Where(static detail => detail.Errors is { Count: > 0 })
                .SelectMany(static detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}")).DefaultIfEmpty("invalid"),
        ];
    }

    /// <summary>What a text breaks of the XML Schema of JUnit reports; nothing when it keeps to it.</summary>
    public static IReadOnlyList<string> JunitFaults(string text)
    {
        List<string> faults = [];
        XmlReaderSettings settings = new()
        {
            Schemas = Junit,
            ValidationType = ValidationType.Schema,
            ValidationFlags = XmlSchemaValidationFlags.ReportValidationWarnings,
            DtdProcessing = DtdProcessing.Prohibit,
        };
        settings.ValidationEventHandler += (_, fault) => faults.Add(fault.Message);
        using XmlReader reader = XmlReader.Create(new StringReader(text), settings);
        while (reader.Read())
        {
        }

        return faults;
    }

    // Of draft 4 the schema uses "id" alone, which draft 7 writes "$id".
    private static JsonSchema ReadSarif()
    {
        JsonObject schema = JsonNode.Parse(File.ReadAllText(PathOf("sarif-2.1.0-rtm.5.json")))!.AsObject();
        schema["$schema"] = "http://json-schema.org/draft-07/schema#";
        schema.Remove("id");
        return JsonSchema.FromText(schema.ToJsonString());
    }

    private static XmlSchemaSet ReadJunit()
    {
        XmlSchemaSet schemas = new();
        using XmlReader reader = XmlReader.Create(PathOf("jenkins-junit.xsd"));
        schemas.Add(null, reader);
        schemas.Compile();
        return schemas;
    }

    private static string PathOf(string name) => Repository.PathOf("tests", "Portwitness.Reports.Tests", "Schemas", name);
}
