using Portwitness.Analysis.Yaml;
using Portwitness.Captures;

namespace Portwitness.Analysis.Product;

/// <summary>Reads which columns of a table hold what from YAML (captures/FORMAT.md).</summary>
public static class TableProfile
{
    private const int MostCharacters = 64 << 10;

    /// <summary>Reads the text of a profile.</summary>
    /// <param name="text">The text.</param>
    /// <param name="ofMeasurements">Its columns of measurements, or those of messages.</param>
    /// <param name="problem">What is wrong, in words; null when nothing is.</param>
    public static TableMapping Read(string text, bool ofMeasurements, out string? problem)
    {
        try
        {
            YamlNode? root = text.Length <= MostCharacters
                ? YamlTreeReader.Read(text)
                : throw new YamlFaultException(0, 0, $"it has more than {MostCharacters} characters");
            YamlNode? measurements = (root as YamlMap)?.Entries.FirstOrDefault(entry => entry.Key.Text == "measurements").Value;
            if (ofMeasurements && measurements is null)
            {
                problem = root is YamlMap ? null : Expected;
                return new TableMapping();
            }

            return Read(ofMeasurements ? measurements! : root ?? new YamlText(1, 1, ""), ofMeasurements, out problem);
        }
        catch (YamlFaultException fault)
        {
            problem = $"line {fault.Line}, column {fault.Column}: {fault.Message}";
            return new TableMapping();
        }
    }

    /// <summary>Reads columns as a list of names, or as the command line writes them.</summary>
    internal static TableMapping Read(YamlNode node, bool ofMeasurements, out string? problem)
    {
        switch (node)
        {
            case YamlText { Text.Length: > 0 } text:
                return ofMeasurements ? TableMapping.ParseMeasurements(text.Text, out problem) : TableMapping.Parse(text.Text, out problem);
            case YamlMap map:
                TableMapping mapping = TableMapping.From(
                    map.Entries.Where(entry => entry.Key.Text != "measurements").Select(entry => Column(entry.Key, entry.Value)),
                    ofMeasurements, out problem);
                problem = problem is null ? null : $"line {map.Line}: {problem}";
                return mapping;
            default:
                problem = Expected;
                return new TableMapping();
        }
    }

    private const string Expected = "columns were expected, for example \"time: {column: 1, unit: ms}\" and \"hex: 7\"";

    private static TableColumn Column(YamlText holds, YamlNode value) => value switch
    {
        YamlText text => new TableColumn(holds.Text, text.Text, null),
        YamlMap map => new TableColumn(holds.Text, Member(map, "column") ?? "", Member(map, "unit")),
        _ => new TableColumn(holds.Text, "", null),
    };

    private static string? Member(YamlMap map, string name) =>
        (map.Entries.FirstOrDefault(entry => entry.Key.Text == name).Value as YamlText)?.Text;
}
