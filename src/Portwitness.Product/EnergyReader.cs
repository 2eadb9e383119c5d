using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Energy;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads "adapter:" of a product file.</summary>
internal sealed class EnergyReader(YamlValues values)
{
    internal static readonly string[] AdapterMembers = ["at", "no_load_w", "accuracy", "points"];
    internal static readonly string[] PointMembers = ["load", "input_w", "output_w"];

    private const int MaxRuns = 100;
    private const int MaxMilliwatts = 1_000_000_000;

    /// <summary>Measured points of a mains supply, one run for each output voltage.</summary>
    public ImmutableArray<AdapterRun> Adapter(YamlNode node) =>
        [.. values.Items(node, "adapter", MaxRuns).Select(Run).OfType<AdapterRun>()];

    private AdapterRun? Run(YamlNode node)
    {
        (Voltage? at, Current? rated, int? noLoad, int? accuracy) = (null, null, null, null);
        YamlNode? points = null;
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "adapter"))
        {
            switch (key.Text)
            {
                case "at":
                    (at, rated) = Setting(value, values);
                    break;
                case "no_load_w":
                    noLoad = values.Number(value, key.Text, 0, MaxMilliwatts, 3);
                    break;
                case "accuracy":
                    accuracy = Percent(value, key.Text);
                    break;
                case "points":
                    points = value;
                    break;
                default:
                    values.Unknown(key, "an adapter", AdapterMembers);
                    break;
            }
        }

        if (at is { } volts && rated is { } amperes && volts.Millivolts > 0 && amperes.Milliamperes > 0)
        {
            return new AdapterRun(
                volts, amperes, points is null ? [] : [.. values.Items(points, "points", MaxRuns).Select(Point).OfType<AdapterPoint>()],
                noLoad, accuracy, node.Line);
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "an adapter's points need \"at:\", the output voltage and its rated current, as \"at: 20V 3.25A\"");
        return null;
    }

    private AdapterPoint? Point(YamlNode node)
    {
        (int? load, int? input, int? output) = (null, null, null);
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "points"))
        {
            switch (key.Text)
            {
                case "load":
                    load = Percent(value, key.Text);
                    break;
                case "input_w":
                    input = values.Number(value, key.Text, 1, MaxMilliwatts, 3);
                    break;
                case "output_w":
                    output = values.Number(value, key.Text, 0, MaxMilliwatts, 3);
                    break;
                default:
                    values.Unknown(key, "an adapter's point", PointMembers);
                    break;
            }
        }

        if (load is { } share && input is { } taken && output is { } given)
        {
            return new AdapterPoint(share, taken, given);
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, "a point needs \"load:\", \"input_w:\" and \"output_w:\", as {load: 25%, input_w: 18.4, output_w: 16.3}");
        return null;
    }

    /// <summary>"5V 2A", or one of the two; a fault for anything else.</summary>
    public static (Voltage? Volts, Current? Amperes) Setting(YamlNode node, YamlValues values)
    {
        (Voltage? volts, Current? amperes) = (null, null);
        foreach (string word in (values.Text(node, "at") ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (AmountWords.Millivolts(word) is > 0 and int millivolts && volts is null)
            {
                volts = Voltage.FromMillivolts(millivolts);
            }
            else if (AmountWords.Milliamperes(word) is > 0 and int milliamperes && amperes is null)
            {
                amperes = Current.FromMilliamperes(milliamperes);
            }
            else
            {
                values.Fault(node, ProductFaultCodes.ValueWrong, "a voltage and a current were expected in \"at\", for example 5V 2A");
                return (null, null);
            }
        }

        return (volts, amperes);
    }

    /// <summary>"0.5%" in millionths; null, with a fault, for anything else.</summary>
    public int? Percent(YamlNode node, string where)
    {
        string text = values.Text(node, where) ?? "";
        if (text.EndsWith('%') && DecimalText.Exact(text[..^1].TrimEnd(), 4) is >= 0 and <= 2_000_000 and long ppm)
        {
            return (int)ppm;
        }

        values.Fault(node, ProductFaultCodes.ValueWrong, $"a share was expected in \"{where}\", for example 25%");
        return null;
    }
}
