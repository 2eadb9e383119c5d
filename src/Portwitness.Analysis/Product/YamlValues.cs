using Portwitness.Analysis.Yaml;
using Portwitness.Captures;

namespace Portwitness.Analysis.Product;

/// <summary>Values of a product file by the kind that is expected; what is of another kind is a fault with its place.</summary>
internal sealed class YamlValues
{
    /// <summary>What was wrong so far.</summary>
    public List<CaptureFault> Faults { get; } = [];

    /// <summary>Names with values; a fault and none for anything else.</summary>
    public IEnumerable<(YamlText Key, YamlNode Value)> Entries(YamlNode node, string where)
    {
        if (node is YamlMap map)
        {
            return map.Entries;
        }

        Fault(node, ProductFaultCodes.ValueWrong, $"names with values were expected in \"{where}\"");
        return [];
    }

    /// <summary>A list; a fault and nothing for anything else.</summary>
    public IEnumerable<YamlNode> Items(YamlNode node, string where)
    {
        if (node is YamlList list)
        {
            return list.Items;
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

    /// <summary>{volts: 0.05%+5mV, amps: 0.1%+5mA}, or the same in one text; a fault and null for anything else.</summary>
    public MeasuringAccuracy? Accuracy(YamlNode node)
    {
        string text = node is YamlMap map
            ? string.Join(',', map.Entries.Select(entry => $"{entry.Key.Text}={(entry.Value as YamlText)?.Text}"))
            : (node as YamlText)?.Text ?? "";
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
