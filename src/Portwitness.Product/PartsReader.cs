using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Controllers;
using Portwitness.Product.Parts;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "parts:" of a product file.</summary>
internal sealed class PartsReader(YamlValues values)
{
    private const int MaxParts = 1_000;
    private const int MaxNames = 50;
    private const int PpmOfWhole = 1_000_000;

    internal static readonly string[] Members = ["part", "kind", "node", "volts", "amps", "headroom"];
    private static readonly string[] ControllerMembers = ["part", "kind", "watts", "protocols", "ports"];

    /// <summary>The product with the parts that can be judged.</summary>
    public ProductFile Read(ProductFile product, YamlNode node)
    {
        YamlNode[] items = [.. values.Items(node, "parts").Take(MaxParts)];
        return product with
        {
            Parts = [.. items.Where(static item => !IsController(item)).Select(Part).OfType<ProductPart>()],
            Controllers = [.. items.Where(IsController).Select(Controller).OfType<ProductController>()],
        };
    }

    private static bool IsController(YamlNode node) =>
        node is YamlMap map && map.Entries.Any(static entry => entry.Key.Text == "kind" && entry.Value is YamlText { Text: "controller" });

    private ProductController? Controller(YamlNode node)
    {
        (string? name, Power? power, ImmutableArray<string> protocols, ImmutableArray<string> ports) = (null, null, [], []);
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "parts"))
        {
            switch (key.Text)
            {
                case "kind":
                    break;
                case "part":
                    name = values.Text(value, key.Text);
                    break;
                case "watts":
                    power = Watts(value);
                    break;
                case "protocols":
                    protocols = Names(value, key.Text);
                    break;
                case "ports":
                    ports = Names(value, key.Text);
                    break;
                default:
                    values.Unknown(key, "a controller", ControllerMembers);
                    break;
            }
        }

        if (!string.IsNullOrWhiteSpace(name) && (power is not null || !protocols.IsEmpty))
        {
            return new ProductController(name, power, protocols, ports);
        }

        values.Fault(
            node, ProductFaultCodes.ValueWrong,
            "a controller needs its name and its power or its protocols, as {part: U1, kind: controller, watts: 65, protocols: [PD3.1, PPS], ports: [C1]}");
        return null;
    }

    private Power? Watts(YamlNode node)
    {
        string text = values.Text(node, "watts") ?? "";
        if ((AmountWords.Milliwatts(text) ?? AmountWords.Milliwatts($"{text}W")) is > 0 and int milliwatts)
        {
            return Power.FromMilliwatts(milliwatts);
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a power up to 1000 W was expected in \"watts\", as 65 or 65W");
        return null;
    }

    private ImmutableArray<string> Names(YamlNode node, string where)
    {
        IEnumerable<YamlNode> items = node is YamlText ? [node] : values.Items(node, where).Take(MaxNames);
        return [.. items.Select(item => values.Text(item, where)?.Trim() ?? "").Where(static name => name.Length > 0).Distinct()];
    }

    private ProductPart? Part(YamlNode node)
    {
        (string? name, string? port, int? millivolts, int? milliamperes, int headroom) = (null, null, null, null, ProductPart.UsualHeadroomPpm);
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "parts"))
        {
            string text = values.Text(value, key.Text) ?? "";
            switch (key.Text)
            {
                case "part":
                    name = text;
                    break;
                case "node":
                    port = text;
                    break;
                case "volts" when AmountWords.Millivolts(text) is > 0 and int volts:
                    millivolts = volts;
                    break;
                case "amps" when AmountWords.Milliamperes(text) is > 0 and int amperes:
                    milliamperes = amperes;
                    break;
                case "headroom" when new EnergyReader(values).Percent(value, key.Text) is { } ppm and < PpmOfWhole:
                    headroom = ppm;
                    break;
                case "volts" or "amps" or "headroom":
                    values.Fault(value, ProductFaultCodes.ValueWrong, "ratings were expected, as {volts: 30V, amps: 6A, headroom: 20%}");
                    break;
                case "kind":
                    values.Fault(value, ProductFaultCodes.ValueWrong, "\"kind: controller\" was expected; a part on VBUS needs no kind");
                    break;
                default:
                    values.Unknown(key, "a part", Members);
                    break;
            }
        }

        if (!string.IsNullOrWhiteSpace(name) && !string.IsNullOrWhiteSpace(port) && (millivolts ?? milliamperes) is not null)
        {
            return new ProductPart(
                name, port, millivolts is { } v ? Voltage.FromMillivolts(v) : null, milliamperes is { } a ? Current.FromMilliamperes(a) : null,
                headroom, node.Line, node.Column);
        }

        values.Fault(
            node, ProductFaultCodes.ValueWrong,
            "a part needs its name, the port whose VBUS it is on, and a rating, as {part: Q3, node: C1, volts: 30V, amps: 6A}");
        return null;
    }
}
