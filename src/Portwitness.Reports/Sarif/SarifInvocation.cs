using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Sarif;

/// <summary>How the run went: what could not be read, and which rules were left out (3.20, 3.58).</summary>
internal sealed class SarifInvocation(SarifArtifacts artifacts)
{
    private readonly List<(string Level, string Text, string Uri, long Line)> _notices = [];
    private readonly SortedSet<string> _selections = new(StringComparer.Ordinal);
    private bool _successful = true;

    public void Add(ReportedProduct product, ProductReport report)
    {
        _successful &= !report.Unusable;
        foreach (string sentence in RuleText.Selection(report.Rules))
        {
            _selections.Add(sentence);
        }

        foreach (Fault fault in report.Faults)
        {
            // The product itself may be named by its folder.
            bool own = fault.File.Length == 0 || fault.File == product.Source
                || product.Source.StartsWith(fault.File + "/", StringComparison.Ordinal);
            _notices.Add((
                report.Unusable ? "error" : "warning", FaultListText.Of(fault),
                own ? ArtifactUri.Of(product) : ArtifactUri.Of(product, fault.File), fault.Line));
        }
    }

    public void Write(SarifWriter sarif)
    {
        sarif.Json.WriteStartArray("invocations");
        sarif.Json.WriteStartObject();
        sarif.Json.WriteBoolean("executionSuccessful", _successful);
        sarif.Json.WriteStartArray("toolExecutionNotifications");
        foreach ((string level, string text, string uri, long line) in _notices)
        {
            sarif.Json.WriteStartObject();
            sarif.Json.WriteString("level", level);
            sarif.WriteMessage("message", text);
            sarif.Json.WriteStartArray("locations");
            sarif.Json.WriteStartObject();
            artifacts.WriteLocation(sarif, uri, line);
            sarif.Json.WriteEndObject();
            sarif.Json.WriteEndArray();
            sarif.Json.WriteEndObject();
        }

        sarif.Json.WriteEndArray();
        sarif.Json.WriteStartArray("toolConfigurationNotifications");
        foreach (string sentence in _selections)
        {
            sarif.Json.WriteStartObject();
            sarif.Json.WriteString("level", "note");
            sarif.WriteMessage("message", sentence);
            sarif.Json.WriteEndObject();
        }

        sarif.Json.WriteEndArray();
        sarif.Json.WriteEndObject();
        sarif.Json.WriteEndArray();
    }
}
