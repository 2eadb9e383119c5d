using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.Product.Converters;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "converters:" of a product file.</summary>
internal sealed class ConvertersReader(YamlValues values)
{
    internal static readonly string[] Members = ["id", "ports", "traced"];

    private const int MaxConverters = 100;
    private const int MaxPorts = 50;

    /// <summary>The converters that can be judged.</summary>
    public ImmutableArray<ProductConverter> Read(YamlNode node) =>
        [.. values.Items(node, "converters", MaxConverters).Select(Converter).OfType<ProductConverter>()];

    private ProductConverter? Converter(YamlNode node)
    {
        (string name, string[] ports, bool isTraced) = ("", [], false);
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "converters"))
        {
            switch (key.Text)
            {
                case "id":
                    name = values.Text(value, key.Text) ?? "";
                    break;
                case "ports":
                    ports =
                    [
                        .. values.Items(value, key.Text, MaxPorts).Select(port => values.Text(port, key.Text)).OfType<string>()
                            .DistinctBy(PortNames.Key),
                    ];
                    break;
                case "traced":
                    isTraced = values.Truth(value, key.Text) == true;
                    break;
                default:
                    values.Unknown(key, "a converter", Members);
                    break;
            }
        }

        if (name.Length > 0 && ports.Length > 0)
        {
            return new ProductConverter(name, [.. ports], isTraced);
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a converter needs its name and the ports that it feeds, as {id: U1, ports: [C1, A], traced: true}");
        return null;
    }
}
