using System.Collections.Immutable;
using Portwitness.Captures.Measurements;
using Portwitness.Product.Energy;
using Portwitness.Product.Soaks;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "soaks:" of a product file, loads that are held to see for how long and how hot, and "touch:".</summary>
internal sealed class SoaksReader(YamlValues values)
{
    internal static readonly string[] Members =
        ["port", "at", "file", "temperatures", "in_use", "with", "offset", "read_on", "current", "longest_step", "accuracy", "measured_at", "columns"];

    internal static readonly string[] TouchMembers = ["row", "material"];

    private const int MaxSoaks = 200;
    private const int MaxTemperatures = 16;

    private const string Needed =
        "a soak needs \"port:\", \"at:\" with voltage and current, and \"file:\" with a log of time, volts and amps, for example "
        + "{port: C1, at: 20V 3.25A, file: soak.csv, temperatures: [case, ambient]}";

    /// <summary>Reads the list.</summary>
    public ImmutableArray<ProductLog> Read(YamlNode node) => [.. values.Items(node, "soaks", MaxSoaks).Select(ReadOne).OfType<ProductLog>()];

    /// <summary>Reads what is touched, and of what it is; null, with a fault, for words that are no row of the table.</summary>
    public TouchRow? Touch(YamlNode node)
    {
        (string row, string material) = ("", "");
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "touch"))
        {
            switch (key.Text)
            {
                case "row":
                    row = values.Text(value, "row") ?? "";
                    break;
                case "material":
                    material = values.Text(value, "material") ?? "";
                    break;
                default:
                    values.Unknown(key, "touch", TouchMembers);
                    break;
            }
        }

        if (TouchRow.Of(row, material) is { } touch)
        {
            return touch;
        }

        values.Fault(
            node, ProductFaultCodes.ValueWrong,
            $"{{row: held, material: plastic}} was expected; rows are {string.Join(", ", TouchRow.Rows)}, materials {string.Join(", ", TouchRow.Materials)}");
        return null;
    }

    private ProductLog? ReadOne(YamlNode item)
    {
        (ImmutableArray<string> temperatures, ImmutableArray<string> inUse, string? with, long offset) = ([], [], null, 0);
        List<(YamlText, YamlNode)> ofLog = [];
        foreach ((YamlText key, YamlNode value) in values.Entries(item, "soaks"))
        {
            switch (key.Text)
            {
                case "temperatures":
                    temperatures = [.. values.Items(value, "temperatures", MaxTemperatures).Select(node => values.Text(node, "temperatures")).OfType<string>()];
                    break;
                case "in_use":
                    inUse = [.. values.Items(value, "in_use").Select(node => values.Text(node, "in_use")).OfType<string>()];
                    break;
                case "with":
                    with = values.Text(value, "with");
                    break;
                case "offset" when MeasurementOptions.TryParseOffset(values.Text(value, "offset") ?? "", out long read):
                    offset = read;
                    break;
                case "offset":
                    values.Fault(value, ProductFaultCodes.ValueWrong, "a time with its unit was expected in \"offset\", for example 1.25s");
                    break;
                default:
                    if (!Members.Contains(key.Text))
                    {
                        values.Unknown(key, "a soak", Members);
                    }

                    ofLog.Add((key, value));
                    break;
            }
        }

        ProductLog? log = new ProductLogReader(values).ReadLoad(ofLog.Where(static entry => Members.Contains(entry.Item1.Text)), item);
        if (log is { Port: not null, AtVoltage: not null, AtCurrent: not null })
        {
            return log with { IsSoak = true, BegunFull = false, Temperatures = temperatures, InUse = inUse, With = with, OffsetUs = offset };
        }

        if (log is not null)
        {
            values.Fault(item, ProductFaultCodes.ValueWrong, Needed);
        }

        return null;
    }
}
