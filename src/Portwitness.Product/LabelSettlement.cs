using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Writes into a product file what a person has settled of its label; comments, order and every other line stay.</summary>
public static class LabelSettlement
{
    private const string Member = "label_corrections";

    /// <summary>The corrections of some lines as a product file has them: <c>{line: 1, no_rating: true}</c>; null with what is wrong.</summary>
    public static IReadOnlyList<LabelCorrection>? Read(IReadOnlyCollection<string> lines, out string? problem)
    {
        if (lines.Count == 0)
        {
            problem = null;
            return [];
        }

        ProductFile read = ProductFileReader.Read($"label: x\n{Member}:\n{string.Concat(lines.Select(static line => $"  - {line.ReplaceLineEndings(" ")}\n"))}");
        problem = read.Faults.IsEmpty ? null : read.Faults[0].Detail;
        return problem is null ? [.. read.Corrections.Select(static one => one.Correction)] : null;
    }

    /// <summary>The file with the corrections; null with what to do by hand where it is written in a way that is not added to.</summary>
    public static string? Add(string file, IReadOnlyList<LabelCorrection> corrections, out string? problem)
    {
        ProductFile before = ProductFileReader.Read(file);
        problem = before.Faults.FirstOrDefault(static fault => ProductFaultCodes.IsFatal(fault.Code)) is { } fault
            ? $"line {fault.Line}: {fault.Detail}" : null;
        if (problem is not null)
        {
            return null;
        }

        string newline = file.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        List<string> lines = [.. file.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n')];
        (int at, string indent, bool isNew) = Place(file, lines);
        IEnumerable<string> added = corrections.Select(one => $"{indent}- {one.ToYaml()}");
        lines.InsertRange(at, isNew ? added.Prepend($"{Member}:") : added);
        string text = string.Join(newline, lines) + newline;

        // Read back: what was there is there, and so is what was added.
        ProductFile after = ProductFileReader.Read(text);
        ImmutableArray<LabelCorrection> expected = [.. before.Corrections.Select(static one => one.Correction), .. corrections];
        bool isAdded = after.Corrections.Select(static one => one.Correction).SequenceEqual(expected)
            && after.Faults.Length == before.Faults.Length && after.Label == before.Label;
        problem = isAdded ? null : $"the file is not written in blocks; add these lines under \"{Member}:\" by hand: {string.Join(", ", corrections.Select(static one => one.ToYaml()))}";
        return isAdded ? text : null;
    }

    // Behind the last correction, or at the end.
    private static (int At, string Indent, bool IsNew) Place(string file, List<string> lines)
    {
        if (YamlTreeReader.Read(file) is not YamlMap map || Find(map) is not { } corrections || corrections.Value is not YamlList { Items: [.., var last] })
        {
            return (lines.Count, "  ", true);
        }

        string first = lines[last.Line - 1];
        int end = map.Entries.Select(static entry => entry.Key.Line).Where(line => line > last.Line).Append(lines.Count + 1).Min() - 1;
        while (end > last.Line && (lines[end - 1].AsSpan().Trim() is [] or ['#', ..]))
        {
            end--;
        }

        return (end, first[..(first.Length - first.TrimStart().Length)], false);
    }

    private static (YamlText Key, YamlNode Value)? Find(YamlMap map)
    {
        foreach ((YamlText key, YamlNode value) in map.Entries)
        {
            if (key.Text == Member)
            {
                return (key, value);
            }
        }

        return null;
    }
}
