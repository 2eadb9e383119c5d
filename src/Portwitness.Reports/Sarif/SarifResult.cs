using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Sarif;

/// <summary>One finding.</summary>
internal static class SarifResult
{
    public static void Write(Utf8JsonWriter json, Finding finding, ReportedProduct product, string name, Dictionary<string, int> indexes)
    {
        json.WriteStartObject();
        json.WriteString("ruleId", finding.Rule);
        if (indexes.TryGetValue(finding.Rule, out int index))
        {
            json.WriteNumber("ruleIndex", index);
        }

        json.WriteString("kind", Kind(finding));
        json.WriteString("level", finding.Verdict == Verdict.Fails ? "error" : "none");
        SarifRules.WriteText(json, "message", VisibleText.Of(finding.Detail.Length > 0 ? finding.Detail : finding.Title));
        WriteLocation(json, finding, product);
        json.WriteStartObject("partialFingerprints");
        json.WriteString("finding/v1", Fingerprint(finding, name));
        json.WriteEndObject();
        WriteProperties(json, finding, name);
        json.WriteEndObject();
    }

    private static string Kind(Finding finding) => finding.Verdict switch
    {
        Verdict.Fails => "fail",
        Verdict.CannotTell => "open",
        _ => "informational",
    };

    // Lines of captures are not known, and a label's line is one of the label, not of a file: no region is stated.
    private static void WriteLocation(Utf8JsonWriter json, Finding finding, ReportedProduct product)
    {
        json.WriteStartArray("locations");
        json.WriteStartObject();
        json.WriteStartObject("physicalLocation");
        json.WriteStartObject("artifactLocation");
        json.WriteString("uri", SarifPath.Of(product, finding.File));
        json.WriteEndObject();
        json.WriteEndObject();
        if (finding.Port.Length > 0)
        {
            json.WriteStartArray("logicalLocations");
            json.WriteStartObject();
            json.WriteString("name", VisibleText.Of(finding.Port));
            json.WriteString("fullyQualifiedName", VisibleText.Of(finding.Arrangement.Count > 1 ? $"{finding.Port} of {string.Join("+", finding.Arrangement)}" : finding.Port));
            json.WriteString("kind", "port");
            json.WriteEndObject();
            json.WriteEndArray();
        }

        json.WriteEndObject();
        json.WriteEndArray();
    }

    private static void WriteProperties(Utf8JsonWriter json, Finding finding, string name)
    {
        json.WriteStartObject("properties");
        Text("product", name);
        Text("severity", finding.Severity.ToString().ToLowerInvariant());
        Text("clause", finding.Clause);
        Text("expected", finding.Expected);
        Text("observed", finding.Observed);
        Text("nextStep", finding.NextStep);
        Number("timeUs", finding.HasTimeUs, finding.TimeUs);
        Number("messageIndex", finding.HasMessageIndex, finding.MessageIndex);
        Number("objectPosition", finding.HasObjectPosition, finding.ObjectPosition);
        Number("labelLine", finding.HasLabelLine, finding.LabelLine);
        Number("repeats", finding.Repeats > 0, finding.Repeats);
        json.WriteEndObject();

        void Text(string member, string text)
        {
            if (text.Length > 0)
            {
                json.WriteString(member, VisibleText.Of(text));
            }
        }

        void Number(string member, bool has, long value)
        {
            if (has)
            {
                json.WriteNumber(member, value);
            }
        }
    }

    // The same finding of another recording has other times and messages, and the same fingerprint.
    private static string Fingerprint(Finding finding, string name) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(
        $"{name}\n{finding.Rule}\n{finding.Port}\n{string.Join('+', finding.Arrangement)}\n{finding.ObjectPosition}\n{finding.LabelLine}\n{finding.Expected}")));
}
