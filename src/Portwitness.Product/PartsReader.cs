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

    private static readonly string[] ControllerMembers = ["part", "kind", "watts", "protocols", "ports"];

    /// <summary>Members of any kind of part.</summary>
    internal static readonly string[] Members = [.. PartReader.Kinds.SelectMany(static kind => kind.Members).Concat(ControllerMembers).Distinct()];

    /// <summary>Kinds of parts.</summary>
    internal static readonly string[] Kinds = [.. PartReader.Kinds.Select(static kind => kind.Word), "controller"];

    /// <summary>The product with the parts that can be judged.</summary>
    public ProductFile Read(ProductFile product, YamlNode node)
    {
        (ProductPart? Part, ProductController? Controller)[] all = [.. values.Items(node, "parts", MaxParts).Select(ReadOne)];
        return product with
        {
            Parts = [.. all.Select(static one => one.Part).OfType<ProductPart>()],
            Controllers = [.. all.Select(static one => one.Controller).OfType<ProductController>()],
        };
    }

    /// <summary>One part, or one controller; neither, with a fault, when it cannot be judged.</summary>
    public (ProductPart? Part, ProductController? Controller) ReadOne(YamlNode node) =>
        IsController(node) ? (null, Controller(node)) : (new PartReader(values).Read(node), null);

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
        IEnumerable<YamlNode> items = node is YamlText ? [node] : values.Items(node, where, MaxNames);
        return [.. items.Select(item => values.Text(item, where)?.Trim() ?? "").Where(static name => name.Length > 0).Distinct()];
    }
}
