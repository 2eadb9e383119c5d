using System.Globalization;
using Portwitness.Captures;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Values of a product file by the kind that is expected; what is of another kind is a fault with its place.</summary>
internal sealed class YamlValues
{
    private const int MaxItems = 10_000;

    internal static readonly string[] AccuracyMembers = ["volts", "amps"];

    /// <summary>What was wrong so far.</summary>
    public List<CaptureFault> Faults { get; } = [];

    /// <summary>Names with values, each name once; a fault for a name that is given again, and for anything else than names with values.</summary>
    public IEnumerable<(YamlText Key, YamlNode Value)> Entries(YamlNode node, string where)
    {
        if (node is not YamlMap map)
        {
            Fault(node, ProductFaultCodes.ValueWrong, $"names with values were expected in \"{where}\"");
            return [];
        }

        List<(YamlText Key, YamlNode Value)> entries = [];
        Dictionary<string, int> lines = [];
        foreach ((YamlText key, YamlNode value) in map.Entries)
        {
            if (lines.TryAdd(key.Text, key.Line))
            {
                entries.Add((key, value));
            }
            else
            {
                Fault(
                    key, ProductFaultCodes.MemberRepeated,
                    $"\"{key.Text}\" is given twice in \"{where}\", first in line {lines[key.Text]}; keep the one that you mean");
            }
        }

        return entries;
    }

    /// <summary>Notes a name that nothing here has.</summary>
    /// <param name="key">The name.</param>
    /// <param name="owner">What has the members, with its article.</param>
    /// <param name="known">Its members.</param>
    public void Unknown(YamlText key, string owner, IReadOnlyList<string> known) =>
        Fault(key, ProductFaultCodes.MemberUnused, NearestName.UnknownMember(key.Text, owner, known));

    /// <summary>A list; a fault and nothing for anything else. Of a longer list than may be, a fault at the first item that is not read.</summary>
    public IEnumerable<YamlNode> Items(YamlNode node, string where, int most = MaxItems)
    {
        if (node is YamlList list)
        {
            if (list.Items.Count > most)
            {
                Fault(
                    list.Items[most], ProductFaultCodes.ValueWrong,
                    $"\"{where}\" has {list.Items.Count} entries and at most {most} are read; make several product files of it");
            }

            return list.Items.Take(most);
        }

        Fault(node, ProductFaultCodes.ValueWrong, $"a list was expected in \"{where}\"");
        return [];
    }

    /// <summary>Text; a fault and null for anything else.</summary>
    public string? Text(YamlNode node, string where)
    {
        if (node is YamlText text)
        {
            return text.Text;
        }

        Fault(node, ProductFaultCodes.ValueWrong, $"text was expected in \"{where}\"");
        return null;
    }

    /// <summary>"true" or "false"; a fault and null for anything else.</summary>
    public bool? Truth(YamlNode node, string where)
    {
        string? text = (node as YamlText)?.Text;
        if (text is not ("true" or "false"))
        {
            Fault(node, ProductFaultCodes.ValueWrong, $"\"{where}: true\" or \"{where}: false\" was expected");
            return null;
        }

        return text == "true";
    }

    /// <summary>A day as 2026-12-01; a fault and null for anything else.</summary>
    public DateOnly? Date(YamlNode node, string where)
    {
        if (DateOnly.TryParseExact(Text(node, where) ?? "", "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day))
        {
            return day;
        }

        Fault(node, ProductFaultCodes.ValueWrong, $"a day was expected in \"{where}\", as 2026-12-01");
        return null;
    }

    /// <summary>A number with a limited number of decimals, as a whole number of its last one; a fault and null for anything else.</summary>
    public int? Number(YamlNode node, string where, int least, int most, int decimals)
    {
        if (DecimalText.Exact(Text(node, where) ?? "", decimals) is { } number && number >= least && number <= most)
        {
            return (int)number;
        }

        decimal scale = decimals switch { 0 => 1, 2 => 100, _ => 1000 };
        string range = string.Create(CultureInfo.InvariantCulture, $"{least / scale} to {most / scale}");
        Fault(node, ProductFaultCodes.ValueWrong, $"a number from {range} was expected in \"{where}\", with {decimals switch { 0 => "no", 2 => "at most two", _ => "at most three" }} decimals");
        return null;
    }

    /// <summary>{volts: 0.05%+5mV, amps: 0.1%+5mA}, or the same in one text; a fault and null for anything else.</summary>
    public MeasuringAccuracy? Accuracy(YamlNode node)
    {
        string text = (node as YamlText)?.Text ?? "";
        if (node is YamlMap)
        {
            (YamlText Key, YamlNode Value)[] entries = [.. Entries(node, "accuracy")];
            foreach ((YamlText key, _) in entries.Where(static entry => !AccuracyMembers.Contains(entry.Key.Text)))
            {
                Unknown(key, "an accuracy", AccuracyMembers);
            }

            text = string.Join(
                ',', entries.Where(static entry => AccuracyMembers.Contains(entry.Key.Text))
                    .Select(static entry => $"{entry.Key.Text}={(entry.Value as YamlText)?.Text}"));
        }

        if (!MeasuringWords.TryParseAccuracy(text, out MeasuringAccuracy? accuracy))
        {
            Fault(node, ProductFaultCodes.ValueWrong, MeasuringWords.ExpectedAccuracy);
        }

        return accuracy;
    }

    /// <summary>Notes a fault at a value.</summary>
    public void Fault(YamlNode at, string code, string detail) =>
        Faults.Add(new CaptureFault(at.Line, at.Column, code, detail));
}
