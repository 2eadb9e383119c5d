using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Sarif;

/// <summary>
/// Findings as a log of SARIF 2.1.0 (OASIS). One run; the rules that have results, and the files that were named, follow the results,
/// so that a batch of any size can be written as it is read.
/// </summary>
public static class SarifReport
{
    private const string Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";

    /// <summary>Writes one run.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        using SarifWriter sarif = new(writer);
        SarifRules rules = new(set.Rules);
        SarifArtifacts artifacts = new();
        SarifInvocation invocation = new(artifacts);
        sarif.Json.WriteStartObject();
        sarif.Json.WriteString("$schema", Schema);
        sarif.Json.WriteString("version", "2.1.0");
        sarif.Json.WriteStartArray("runs");
        sarif.Json.WriteStartObject();

        // Columns are never given; this says how they would count.
        sarif.Json.WriteString("columnKind", "unicodeCodePoints");
        sarif.Json.WriteStartArray("results");
        foreach (ReportedProduct product in set.Products)
        {
            ProductReport report = product.Read();
            artifacts.Add(product, report);
            SarifResults.Write(sarif, product, report, rules, artifacts);
            invocation.Add(product, report);
            sarif.Flush();
        }

        sarif.Json.WriteEndArray();
        invocation.Write(sarif);
        artifacts.Write(sarif);
        rules.Write(sarif);
        sarif.Json.WriteEndObject();
        sarif.Json.WriteEndArray();
        sarif.Json.WriteEndObject();
        sarif.Flush();
        writer.Write('\n');
    }
}
