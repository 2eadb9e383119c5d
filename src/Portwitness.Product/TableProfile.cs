using Portwitness.Captures.Tables;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads which columns of a table hold what from YAML (captures/FORMAT.md).</summary>
public static class TableProfile
{
    private const int MaxCharacters = 64 << 10;
    private const int MaxProblems = 20;
    private const string Measurements = "measurements";

    private static readonly string[] ColumnMembers = ["column", "unit"];

    /// <summary>Reads the text of a profile.</summary>
    /// <param name="text">The text.</param>
    /// <param name="ofMeasurements">Its columns of measurements, or those of messages.</param>
    /// <param name="problem">What is wrong, in words; null when nothing is.</param>
    public static TableMapping Read(string text, bool ofMeasurements, out string? problem)
    {
        try
        {
            YamlNode? root = text.Length <= MaxCharacters
                ? YamlTreeReader.Read(text)
                : throw new YamlFaultException(0, 0, $"it has more than {MaxCharacters} characters");
            YamlNode? measurements = (root as YamlMap)?.Entries.FirstOrDefault(entry => entry.Key.Text == Measurements).Value;
            if (ofMeasurements && measurements is null)
            {
                problem = root is YamlMap ? null : Expected;
                return new TableMapping();
            }

            YamlValues values = new();
            TableMapping mapping = Read(ofMeasurements ? measurements! : root ?? new YamlText(1, 1, ""), ofMeasurements, values);
            problem = values.Faults.Count == 0 ? null : string.Join(
                "; ", values.Faults.Take(MaxProblems).Select(static fault => $"line {fault.Line}, column {fault.Column}: {fault.Detail}"));
            return mapping;
        }
        catch (YamlFaultException fault)
        {
            problem = $"line {fault.Line}, column {fault.Column}: {fault.Message}";
            return new TableMapping();
        }
    }

    /// <summary>Reads columns as a list of names, or as the command line writes them; what is wrong is a fault at its place.</summary>
    internal static TableMapping Read(YamlNode node, bool ofMeasurements, YamlValues values)
    {
        string? problem;
        switch (node)
        {
            case YamlText { Text.Length: > 0 } text:
                TableMapping inWords = ofMeasurements
                    ? TableMapping.ParseMeasurements(text.Text, out problem) : TableMapping.Parse(text.Text, out problem);
                Report(problem);
                return inWords;
            case YamlMap map:
                TableMapping mapping = TableMapping.From(Columns(map, ofMeasurements, values), ofMeasurements, out problem);
                Report(problem);
                return mapping;
            default:
                Report(Expected);
                return new TableMapping();
        }

        void Report(string? detail)
        {
            if (detail is not null)
            {
                values.Fault(node, ProductFaultCodes.ValueWrong, detail);
            }
        }
    }

    private const string Expected = "columns were expected, for example \"time: {column: 1, unit: ms}\" and \"hex: 7\"";

    // Columns of measurements have a part of their own in the profile of a table of messages.
    private static IEnumerable<TableColumn> Columns(YamlMap map, bool ofMeasurements, YamlValues values)
    {
        IReadOnlyList<string> known = TableMapping.NamesOf(ofMeasurements);
        foreach ((YamlText holds, YamlNode value) in values.Entries(map, "columns"))
        {
            if (known.Contains(holds.Text))
            {
                yield return Column(holds, value, values);
            }
            else if (ofMeasurements || holds.Text != Measurements)
            {
                values.Unknown(holds, "columns", ofMeasurements ? known : [.. known, Measurements]);
            }
        }
    }

    private static TableColumn Column(YamlText holds, YamlNode value, YamlValues values)
    {
        if (value is YamlText text)
        {
            return new TableColumn(holds.Text, text.Text, null);
        }

        (string column, string? unit) = ("", null);
        foreach ((YamlText key, YamlNode member) in values.Entries(value, holds.Text))
        {
            switch (key.Text)
            {
                case "column":
                    column = values.Text(member, "column") ?? "";
                    break;
                case "unit":
                    unit = values.Text(member, "unit");
                    break;
                default:
                    values.Unknown(key, "a column", ColumnMembers);
                    break;
            }
        }

        return new TableColumn(holds.Text, column, unit);
    }
}
