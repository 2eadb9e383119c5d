using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Sarif;

/// <summary>The rules that have results, numbered as they come, and what the catalogue says of them.</summary>
internal sealed class SarifRules(IEnumerable<RuleDescription> catalogue)
{
    private readonly Dictionary<string, RuleDescription> _catalogue = catalogue.ToDictionary(static rule => rule.Name);
    private readonly Dictionary<string, int> _indexes = [];
    private readonly List<RuleDescription> _used = [];

    /// <summary>The level of a severity (3.27.10).</summary>
    public static string LevelOf(Severity severity) => severity switch
    {
        Severity.Violation or Severity.Mismatch => "error",
        Severity.Caution => "warning",
        _ => "note",
    };

    /// <summary>The number of a finding's rule. One that the catalogue lacks is described by the finding.</summary>
    public int IndexOf(Finding finding)
    {
        if (!_indexes.TryGetValue(finding.Rule, out int index))
        {
            index = _indexes[finding.Rule] = _used.Count;
            _used.Add(_catalogue.TryGetValue(finding.Rule, out RuleDescription? known)
                ? known
                : new RuleDescription { Name = finding.Rule, Title = finding.Title, Severity = finding.Severity, Clause = finding.Clause });
        }

        return index;
    }

    /// <summary>Writes the tool with its rules (3.18, 3.19, 3.49).</summary>
    public void Write(SarifWriter sarif)
    {
        sarif.Json.WriteStartObject("tool");
        sarif.Json.WriteStartObject("driver");
        sarif.Json.WriteString("name", "Portwitness");
        sarif.Json.WriteString("version", ReportSet.ToolVersion);
        sarif.Json.WriteString("semanticVersion", ReportSet.ToolVersion);
        sarif.Json.WriteStartArray("rules");
        foreach (RuleDescription rule in _used)
        {
            Write(sarif, rule);
        }

        sarif.Json.WriteEndArray();
        sarif.Json.WriteEndObject();
        sarif.Json.WriteEndObject();
    }

    private static void Write(SarifWriter sarif, RuleDescription rule)
    {
        sarif.Json.WriteStartObject();
        sarif.Json.WriteString("id", VisibleText.Of(rule.Name));
        WriteOptional("shortDescription", rule.Title);
        WriteOptional("fullDescription", rule.Why);
        WriteOptional("help", Help(rule));
        sarif.Json.WriteStartObject("defaultConfiguration");
        sarif.Json.WriteString("level", LevelOf(rule.Severity));
        sarif.Json.WriteEndObject();
        sarif.Json.WriteStartObject("properties");
        sarif.WriteText("category", rule.Category);
        sarif.WriteText("clause", rule.Clause);
        sarif.Json.WriteStartArray("editions");
        foreach (string edition in rule.Editions)
        {
            sarif.Json.WriteStringValue(edition);
        }

        sarif.Json.WriteEndArray();
        sarif.Json.WriteEndObject();
        sarif.Json.WriteEndObject();

        void WriteOptional(string name, string text)
        {
            if (text.Length > 0)
            {
                sarif.WriteMessage(name, text);
            }
        }
    }

    private static string Help(RuleDescription rule) => string.Join("\n", new[]
    {
        rule.Clause.Length > 0 ? $"By: {rule.Clause}" : "",
        rule.Evidence.Length > 0 ? $"Needs: {rule.Evidence}" : "",
        rule.Example.Length > 0 ? $"Example: {rule.Example}" : "",
    }.Where(static line => line.Length > 0));
}
