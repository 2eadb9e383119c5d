using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Parts;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "parts:" of a product file.</summary>
internal sealed class PartsReader(YamlValues values)
{
    private const int MaxParts = 1_000;
    private const int PpmOfWhole = 1_000_000;

    internal static readonly string[] Members = ["part", "node", "volts", "amps", "headroom"];

    /// <summary>The parts that can be judged.</summary>
    public ImmutableArray<ProductPart> Read(YamlNode node) =>
        [.. values.Items(node, "parts").Take(MaxParts).Select(Part).OfType<ProductPart>()];

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
