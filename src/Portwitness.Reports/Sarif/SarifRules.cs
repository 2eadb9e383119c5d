using System.Text.Json;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Sarif;

/// <summary>The tool and its rules.</summary>
internal static class SarifRules
{
    public static void Write(Utf8JsonWriter json, IReadOnlyList<RuleDescription> rules)
    {
        json.WriteStartObject("tool");
        json.WriteStartObject("driver");
        json.WriteString("name", "Portwitness");
        json.WriteString("version", ReportSet.ToolVersion);
        json.WriteStartArray("rules");
        foreach (RuleDescription rule in rules)
        {
            WriteOne(json, rule);
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
    }

    /// <summary>"error", or "none" for what is never a failure.</summary>
    public static string Level(Severity severity) => severity is Severity.Violation or Severity.Mismatch ? "error" : "none";

    /// <summary>An object with a text.</summary>
    public static void WriteText(Utf8JsonWriter json, string name, string text)
    {
        json.WriteStartObject(name);
        json.WriteString("text", text);
        json.WriteEndObject();
    }

    private static void WriteOne(Utf8JsonWriter json, RuleDescription rule)
    {
        json.WriteStartObject();
        json.WriteString("id", rule.Name);
        WriteText(json, "shortDescription", rule.Title);
        WriteText(json, "fullDescription", rule.Why);
        WriteText(json, "help", $"{rule.Why}\nNeeded as evidence: {rule.Evidence}\nExample: {rule.Example}");
        json.WriteStartObject("defaultConfiguration");
        json.WriteString("level", Level(rule.Severity));
        json.WriteEndObject();
        json.WriteStartObject("properties");
        json.WriteString("severity", rule.Severity.ToString().ToLowerInvariant());
        json.WriteString("category", rule.Category);
        json.WriteString("clause", rule.Clause);
        json.WriteStartArray("editions");
        foreach (string edition in rule.Editions)
        {
            json.WriteStringValue(edition);
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
    }
}
