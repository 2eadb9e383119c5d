using System.Text;
using Portwitness.Labels;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>
/// Reads "ratings:" of a product file: a label's ratings entered by hand. They are written down in a label's own words, so that one
/// reader gives them their meaning; what that does not read, and what is empty, is a fault at its place.
/// </summary>
internal sealed class RatingsReader
{
    private const string Example = "5V 3A, PPS 3.3-11V 5A, 65W, 100-240V~ 50/60Hz 1.5A or 20000mAh";

    internal static readonly string[] Members = ["inputs", "outputs", "combinations", "total", "battery"];
    internal static readonly string[] OutputMembers = ["modes", "ranges", "maximum"];
    internal static readonly string[] BatteryMembers = ["capacity", "voltage", "energy", "cells", "rated"];

    private readonly YamlValues _values;
    private readonly StringBuilder _text = new();

    // Each line's value in the product file.
    private readonly List<YamlNode> _from = [];

    private RatingsReader(YamlValues values) => _values = values;

    /// <summary>The ratings as the text of a label.</summary>
    public static string Read(YamlNode ratings, YamlValues values)
    {
        RatingsReader reader = new(values);
        foreach ((YamlText key, YamlNode value) in reader.Entries(ratings, "ratings"))
        {
            reader.ReadMember(key, value);
        }

        reader.Check();
        return reader._text.ToString();
    }

    private void ReadMember(YamlText key, YamlNode value)
    {
        switch (key.Text)
        {
            case "inputs":
                foreach ((YamlText port, YamlNode input) in Entries(value, "inputs"))
                {
                    Add(port, port.Text == "mains" ? "Input:" : $"Input {port.Text}:", Joined(input, port.Text));
                }

                break;
            case "outputs":
                foreach ((YamlText port, YamlNode output) in Entries(value, "outputs"))
                {
                    Add(port, $"Output {port.Text}:", Output(output, port.Text));
                }

                break;
            case "combinations":
                foreach ((YamlText ports, YamlNode shares) in Entries(value, "combinations"))
                {
                    Add(ports, $"{ports.Text}:", Combination(shares, ports.Text));
                }

                break;
            case "total":
                Add(key, "Total:", Text(value, "total"));
                break;
            case "battery":
                Battery(value);
                break;
            default:
                _values.Unknown(key, "ratings", Members);
                break;
        }
    }

    private string Output(YamlNode output, string port)
    {
        if (output is not YamlMap)
        {
            return Joined(output, port);
        }

        List<string> parts = [];
        foreach ((YamlText key, YamlNode value) in Entries(output, port))
        {
            switch (key.Text)
            {
                case "modes" or "ranges":
                    parts.Add(Joined(value, key.Text));
                    break;
                case "maximum":
                    parts.Add(Text(value, "maximum") is { Length: > 0 } maximum ? $"Max {maximum}" : "");
                    break;
                default:
                    _values.Unknown(key, "an output's ratings", OutputMembers);
                    break;
            }
        }

        return Listed(parts);
    }

    private string Combination(YamlNode shares, string ports)
    {
        if (shares is YamlMap { Entries: [{ Key.Text: "total", Value: { } total }] })
        {
            return Text(total, "total") is { Length: > 0 } watts ? $"{watts} total" : "";
        }

        return Listed(Entries(shares, ports).Select(share => (Port: share.Key.Text, Value: Text(share.Value, share.Key.Text)))
            .Select(static share => share.Value.Length > 0 ? $"{share.Port} {share.Value}" : ""));
    }

    private void Battery(YamlNode battery)
    {
        List<string> cells = [];
        foreach ((YamlText key, YamlNode value) in Entries(battery, "battery"))
        {
            switch (key.Text)
            {
                case "rated":
                    Add(key, "Rated capacity:", Text(value, "rated"));
                    break;
                case "capacity" or "voltage" or "energy" or "cells":
                    cells.Add(Text(value, key.Text));
                    break;
                default:
                    _values.Unknown(key, "a battery's ratings", BatteryMembers);
                    break;
            }
        }

        Add(battery, "Battery:", string.Join(' ', cells.Where(static figure => figure.Length > 0)));
    }

    private string Joined(YamlNode node, string where)
    {
        if (node is not YamlList list)
        {
            return Text(node, where);
        }

        if (list.Items.Count == 0)
        {
            Empty(list, where);
        }

        return Listed(list.Items.Select(item => Text(item, where)));
    }

    private static string Listed(IEnumerable<string> parts) => string.Join(", ", parts.Where(static part => part.Length > 0));

    private IEnumerable<(YamlText Key, YamlNode Value)> Entries(YamlNode node, string where)
    {
        if (node is YamlMap { Entries.Count: 0 } or YamlText { Text: "" })
        {
            Empty(node, where);
            return [];
        }

        return _values.Entries(node, where);
    }

    // The value in one line; empty where that is a fault.
    private string Text(YamlNode node, string where)
    {
        string? text = _values.Text(node, where)?.ReplaceLineEndings(" ").Trim();
        if (text is "")
        {
            Empty(node, where);
        }

        return text ?? "";
    }

    private void Empty(YamlNode at, string where) => Fault(at, $"a value was expected in \"{where}\"; write for example {Example}, or leave the name out");

    private void Fault(YamlNode at, string detail) => _values.Fault(at, ProductFaultCodes.ValueWrong, detail);

    private void Add(YamlNode from, string head, string rest)
    {
        // What is wrong already is a fault already.
        if (rest.Length > 0)
        {
            _text.Append(head).Append(' ').Append(rest).Append('\n');
            _from.Add(from);
        }
    }

    private void Check()
    {
        string text = _text.ToString();
        if (text.Length == 0 || LabelLimits.Excess(text) is not null)
        {
            return;
        }

        Label label = LabelReader.Read(text);
        foreach (UnreadSpan span in label.Unread.Where(span => span.At.Line <= _from.Count))
        {
            Fault(_from[span.At.Line - 1], $"\"{span.Text}\" is not read as a rating; write for example {Example}");
        }

        if (label.UnlistedUnread > 0)
        {
            Fault(_from[0], $"{label.UnlistedUnread} more places of the ratings are not read");
        }
    }
}
