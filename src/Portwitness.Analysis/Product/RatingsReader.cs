using System.Text;
using Portwitness.Analysis.Yaml;
using Portwitness.Labels;

namespace Portwitness.Analysis.Product;

/// <summary>
/// Reads "ratings:" of a product file: a label's ratings entered by hand. They are written down in a label's own words, so that one
/// reader gives them their meaning; what that does not read is a fault at its place.
/// </summary>
internal static class RatingsReader
{
    /// <summary>The ratings as the text of a label.</summary>
    public static string Read(YamlNode ratings, YamlValues values)
    {
        Lines lines = new(values);
        foreach ((YamlText key, YamlNode value) in values.Entries(ratings, "ratings"))
        {
            switch (key.Text)
            {
                case "inputs":
                    foreach ((YamlText port, YamlNode input) in values.Entries(value, "inputs"))
                    {
                        lines.Add(port, port.Text == "mains" ? "Input:" : $"Input {port.Text}:", Joined(input, values));
                    }

                    break;
                case "outputs":
                    foreach ((YamlText port, YamlNode output) in values.Entries(value, "outputs"))
                    {
                        lines.Add(port, $"Output {port.Text}:", Output(output, values));
                    }

                    break;
                case "combinations":
                    foreach ((YamlText ports, YamlNode shares) in values.Entries(value, "combinations"))
                    {
                        lines.Add(ports, $"{ports.Text}:", Combination(shares, values));
                    }

                    break;
                case "total":
                    lines.Add(key, "Total:", values.Filled(value, "total") ?? "");
                    break;
                case "battery":
                    Battery(value, values, lines);
                    break;
                default:
                    values.Fault(key, ProductFaultCodes.ValueWrong, $"\"{key.Text}\" is not a member of ratings; inputs, outputs, combinations, total and battery are");
                    break;
            }
        }

        lines.Check();
        return lines.Text;
    }

    private static string Output(YamlNode output, YamlValues values)
    {
        if (output is not YamlMap)
        {
            return Joined(output, values);
        }

        List<string> parts = [];
        if (output is YamlMap { Entries.Count: 0 })
        {
            values.Fault(output, ProductFaultCodes.ValueWrong, "modes, ranges or maximum were expected of an output");
        }

        foreach ((YamlText key, YamlNode value) in values.Entries(output, "outputs"))
        {
            switch (key.Text)
            {
                case "modes" or "ranges":
                    parts.Add(Joined(value, values));
                    break;
                case "maximum":
                    parts.Add(values.Filled(value, "maximum") is { } maximum ? $"Max {maximum}" : "");
                    break;
                default:
                    values.Fault(key, ProductFaultCodes.ValueWrong, $"\"{key.Text}\" is not a member of an output; modes, ranges and maximum are");
                    break;
            }
        }

        return string.Join(", ", parts.Where(part => part.Length > 0));
    }

    private static string Combination(YamlNode shares, YamlValues values)
    {
        if (shares is YamlMap { Entries: [{ Key.Text: "total", Value: { } total }] })
        {
            return values.Filled(total, "total") is { } sum ? $"{sum} total" : "";
        }

        return string.Join(", ", values.Entries(shares, "combinations").Select(share => $"{share.Key.Text} {values.Filled(share.Value, share.Key.Text)}"));
    }

    private static void Battery(YamlNode battery, YamlValues values, Lines lines)
    {
        List<string> cells = [];
        foreach ((YamlText key, YamlNode value) in values.Entries(battery, "battery"))
        {
            if (key.Text == "rated")
            {
                lines.Add(key, "Rated capacity:", values.Filled(value, "rated") ?? "");
            }
            else if (key.Text is "capacity" or "voltage" or "energy" or "cells")
            {
                cells.Add(values.Filled(value, key.Text) ?? "");
            }
            else
            {
                values.Fault(key, ProductFaultCodes.ValueWrong, $"\"{key.Text}\" is not a member of battery; capacity, voltage, energy, cells and rated are");
            }
        }

        if (cells.Count > 0)
        {
            lines.Add(battery, "Battery:", string.Join(' ', cells));
        }
    }

    private static string Joined(YamlNode node, YamlValues values)
    {
        if (node is YamlList { Items.Count: 0 })
        {
            values.Fault(node, ProductFaultCodes.ValueWrong, "a rating was expected in the list; leave the name out if there is none");
        }

        return node is YamlList list
            ? string.Join(", ", list.Items.Select(item => values.Filled(item, "ratings")).OfType<string>())
            : values.Filled(node, "ratings") ?? "";
    }

    // Each line with the value that it is from.
    private sealed class Lines(YamlValues values)
    {
        private readonly StringBuilder _text = new();
        private readonly List<YamlNode> _from = [];

        public string Text => _text.ToString();

        public void Add(YamlNode from, string head, string rest)
        {
            // What is wrong already is a fault already.
            if (rest.Length > 0)
            {
                _text.Append(head).Append(' ').Append(rest.ReplaceLineEndings(" ")).Append('\n');
                _from.Add(from);
            }
        }

        public void Check()
        {
            if (_text.Length > LabelReader.MaximumLength)
            {
                return;
            }

            foreach (UnreadSpan span in LabelReader.Read(Text).Unread.Where(span => span.At.Line <= _from.Count))
            {
                YamlNode from = _from[span.At.Line - 1];
                values.Fault(
                    from, ProductFaultCodes.ValueWrong,
                    $"\"{span.Text}\" is not read as a rating; write for example 5V 3A, PPS 3.3-11V 5A, 65W, 100-240V~ 50/60Hz 1.5A or 20000mAh");
            }
        }
    }
}
