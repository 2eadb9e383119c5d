using System.Buffers;
using System.Text;
using System.Text.Json;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Sarif;

/// <summary>
/// Findings as SARIF 2.1.0, all products in one run. What fails is an error; what cannot be told is open, and notes are informational:
/// neither has a level (SARIF 2.1.0, 3.27.9 and 3.27.10).
/// </summary>
public static class SarifReport
{
    private const string Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    /// <summary>Writes the run; products are read one at a time.</summary>
    public static void Write(TextWriter writer, ReportSet set)
    {
        ArrayBufferWriter<byte> buffer = new();
        using Utf8JsonWriter json = new(buffer, new JsonWriterOptions { Indented = true, NewLine = "\n" });
        json.WriteStartObject();
        json.WriteString("$schema", Schema);
        json.WriteString("version", "2.1.0");
        json.WriteStartArray("runs");
        json.WriteStartObject();
        SarifRules.Write(json, set.Rules);
        json.WriteString("columnKind", "utf16CodeUnits");
        json.WriteStartArray("results");
        Dictionary<string, int> indexes = set.Rules.Index().ToDictionary(static rule => rule.Item.Name, static rule => rule.Index);
        foreach (ReportedProduct product in set.Products)
        {
            ProductReport report = product.Read();
            foreach (Finding finding in report.Findings.OrderBy(static finding => finding.Severity))
            {
                SarifResult.Write(json, finding, product, report.Product, indexes);
            }

            Drain(json, buffer, writer);
        }

        json.WriteEndArray();
        WriteArtifacts(json, set, () => Drain(json, buffer, writer));
        WriteInvocation(json, set);
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
        Drain(json, buffer, writer);
        writer.Write('\n');
    }

    private static void WriteArtifacts(Utf8JsonWriter json, ReportSet set, Action drain)
    {
        json.WriteStartArray("artifacts");
        foreach (ReportedProduct product in set.Products)
        {
            foreach (JudgedFile input in product.Read().Inputs)
            {
                json.WriteStartObject();
                json.WriteStartObject("location");
                json.WriteString("uri", SarifPath.Of(product, input.File));
                json.WriteEndObject();
                json.WriteNumber("length", input.Bytes);
                json.WriteStartObject("hashes");
                json.WriteString("sha-256", input.Sha256);
                json.WriteEndObject();
                json.WriteEndObject();
            }

            drain();
        }

        json.WriteEndArray();
    }

    private static void WriteInvocation(Utf8JsonWriter json, ReportSet set)
    {
        ReportedProduct[] unusable = [.. set.Products.Where(static one => one.Outcome == ProductOutcome.Unusable)];
        json.WriteStartArray("invocations");
        json.WriteStartObject();
        json.WriteBoolean("executionSuccessful", unusable.Length == 0);
        json.WriteStartArray("toolExecutionNotifications");
        foreach (Fault fault in unusable.SelectMany(static one => one.Read().Faults))
        {
            json.WriteStartObject();
            json.WriteString("level", "error");
            json.WriteStartObject("message");
            json.WriteString("text", FaultText.Of(fault));
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
    }

    private static void Drain(Utf8JsonWriter json, ArrayBufferWriter<byte> buffer, TextWriter writer)
    {
        json.Flush();
        writer.Write(Encoding.UTF8.GetString(buffer.WrittenSpan));
        buffer.ResetWrittenCount();
    }
}
