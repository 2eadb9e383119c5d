using System.Security.Cryptography;
using System.Text;
using Google.Protobuf.Collections;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Sarif;

/// <summary>Findings as results (3.27). Their kind is left at "fail": any other would ask for the level "none" (3.27.9).</summary>
internal static class SarifResults
{
    public static void Write(
        SarifWriter sarif, ReportedProduct product, ProductReport report, SarifRules rules, SarifArtifacts artifacts)
    {
        Dictionary<string, int> seen = [];
        foreach (Finding finding in report.Findings)
        {
            sarif.Json.WriteStartObject();
            sarif.WriteText("ruleId", finding.Rule);
            sarif.Json.WriteNumber("ruleIndex", rules.IndexOf(finding));
            sarif.Json.WriteString("level", SarifRules.LevelOf(finding.Severity));
            sarif.WriteMessage("message", Message(finding));
            WriteLocations(sarif, product, report, finding, artifacts);

            string print = Fingerprint(product, finding);
            int before = seen[print] = seen.GetValueOrDefault(print, -1) + 1;
            sarif.Json.WriteStartObject("partialFingerprints");
            sarif.Json.WriteString("finding/v1", $"{print}:{Amounts.Number(before)}");
            sarif.Json.WriteEndObject();
            WriteProperties(sarif, report, finding);
            sarif.Json.WriteEndObject();
        }
    }

    private static string Message(Finding finding) => string.Join("\n", new[] { finding.Title }.Concat(
        FindingText.Lines(finding).Where(static line => line.Text.Length > 0).Select(static line => $"{line.Label}: {line.Text}")));

    // A finding without a file is about the product file, or about a capture's label, which need not be in any file.
    private static void WriteLocations(
        SarifWriter sarif, ReportedProduct product, ProductReport report, Finding finding, SarifArtifacts artifacts)
    {
        sarif.Json.WriteStartArray("locations");
        WriteLocation(sarif, product, report, finding, finding.File, finding.Arrangement, "", artifacts);
        foreach (FindingPlace place in finding.FurtherPlaces)
        {
            WriteLocation(
                sarif, product, report, finding, place.File, place.Arrangement,
                $"{FindingPlaces.One(finding, place)}: {place.Detail}", artifacts);
        }

        sarif.Json.WriteEndArray();
    }

    private static void WriteLocation(
        SarifWriter sarif, ReportedProduct product, ProductReport report, Finding finding, string file, RepeatedField<string> arrangement,
        string message, SarifArtifacts artifacts)
    {
        sarif.Json.WriteStartObject();
        if (file.Length > 0 || product.IsProductFile)
        {
            artifacts.WriteLocation(sarif, file.Length > 0 ? ArtifactUri.Of(product, file) : ArtifactUri.Of(product));
        }

        sarif.Json.WriteStartArray("logicalLocations");
        string path = report.Product.Length > 0 ? report.Product : product.Source;
        Write("product", path);
        if (finding.Port.Length > 0)
        {
            Write("port", finding.Port);
        }

        if (arrangement.Count > 0)
        {
            Write("arrangement", string.Join(" + ", arrangement));
        }

        sarif.Json.WriteEndArray();
        if (message.Length > 0)
        {
            sarif.WriteMessage("message", message);
        }

        sarif.Json.WriteEndObject();

        void Write(string kind, string name)
        {
            path = kind == "product" ? name : $"{path}/{name}";
            sarif.Json.WriteStartObject();
            sarif.WriteText("name", name);
            sarif.WriteText("fullyQualifiedName", path);
            sarif.Json.WriteString("kind", kind);
            sarif.Json.WriteEndObject();
        }
    }

    private static void WriteProperties(SarifWriter sarif, ProductReport report, Finding finding)
    {
        sarif.Json.WriteStartObject("properties");
        sarif.WriteText("product", report.Product);
        sarif.Json.WriteString("severity", TextStyle.Plain.Severity(finding.Severity));
        sarif.WriteText("verdict", Words.Of(finding.Verdict));
        sarif.WriteText("clause", finding.Clause);
        Number("timeUs", finding.HasTimeUs, finding.TimeUs);
        Number("messageIndex", finding.HasMessageIndex, finding.MessageIndex);
        Number("objectPosition", finding.HasObjectPosition, finding.ObjectPosition);
        Number("labelLine", finding.HasLabelLine, finding.LabelLine);
        if (finding.Label.Length > 0)
        {
            sarif.WriteText("label", finding.Label);
        }

        Number("repeats", finding.Repeats > 0, finding.Repeats);
        sarif.Json.WriteEndObject();

        void Number(string name, bool known, long value)
        {
            if (known)
            {
                sarif.Json.WriteNumber(name, value);
            }
        }
    }

    // What stays the same when the same product is captured again: no times, no values, no words.
    private static string Fingerprint(ReportedProduct product, Finding finding)
    {
        string[] parts =
        [
            finding.Rule, product.Source.Replace('\\', '/'), finding.File, finding.Port, string.Join('+', finding.Arrangement),
            finding.HasObjectPosition ? Amounts.Number(finding.ObjectPosition) : "",
            (finding.HasLabelLine ? Amounts.Number(finding.LabelLine) : "") + (finding.Label.Length > 0 ? $" {finding.Label} {finding.OtherLabel}" : ""),
        ];
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\0', parts))))[..32];
    }
}
