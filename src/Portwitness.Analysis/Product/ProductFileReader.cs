using System.Collections.Immutable;
using Portwitness.Analysis.Yaml;
using Portwitness.Captures;

namespace Portwitness.Analysis.Product;

/// <summary>Reads the text of a product.yaml. What is wrong is reported with its place; the rest is still read.</summary>
public static class ProductFileReader
{
    /// <summary>Longest text, in characters.</summary>
    public const int MostCharacters = 1 << 20;

    private const int MostCaptures = 10_000;

    /// <summary>Reads a product file.</summary>
    public static ProductFile Read(string text)
    {
        if (text.Length > MostCharacters)
        {
            return Unreadable(0, 0, $"a product file has at most {MostCharacters} characters, this one {text.Length}");
        }

        try
        {
            return YamlTreeReader.Read(text) switch
            {
                YamlMap map => new Reading().Read(map),
                null => Unreadable(1, 1, "the file is empty; it needs at least \"product:\" and \"captures:\""),
                { } other => Unreadable(other.Line, other.Column, "\"product:\", \"label:\" and \"captures:\" were expected"),
            };
        }
        catch (YamlFaultException fault)
        {
            return Unreadable(fault.Line, fault.Column, $"not readable as YAML: {fault.Message}");
        }
    }

    private static ProductFile Unreadable(int line, int column, string detail) =>
        new() { Faults = [new CaptureFault(line, column, ProductFaultCodes.Unreadable, detail)] };

    private sealed class Reading
    {
        private readonly List<CaptureFault> _faults = [];

        public ProductFile Read(YamlMap map)
        {
            ProductFile product = new();
            foreach ((YamlText key, YamlNode value) in map.Entries)
            {
                product = key.Text switch
                {
                    "product" => product with { Product = Text(value, "product") ?? "" },
                    "label" => product with { Label = Text(value, "label") },
                    "ports" => product with { CaptivePorts = Ports(value) },
                    "captures" => product with { Captures = Captures(value) },
                    "battery" or "discharges" => Note(product, key, "is not judged by this version"),
                    _ => Note(product, key, "is not a member of a product file and was passed over"),
                };
            }

            if (product.Captures.IsEmpty && _faults.TrueForAll(f => f.Code != ProductFaultCodes.PathLeavesFolder))
            {
                Fault(map, ProductFaultCodes.NoCaptures, "no captures are named; add \"captures:\" with a file and its port");
            }

            return product with { Faults = [.. _faults] };
        }

        private ProductFile Note(ProductFile product, YamlText key, string why)
        {
            Fault(key, ProductFaultCodes.MemberUnused, $"\"{key.Text}\" {why}");
            return product;
        }

        private ImmutableDictionary<string, bool> Ports(YamlNode value)
        {
            ImmutableDictionary<string, bool>.Builder captive = ImmutableDictionary.CreateBuilder<string, bool>();
            foreach ((YamlText port, YamlNode facts) in Entries(value, "ports"))
            {
                foreach ((YamlText fact, YamlNode stated) in Entries(facts, port.Text))
                {
                    string? word = fact.Text == "cable" ? Text(stated, "cable") : null;
                    if (word is "captive" or "detachable")
                    {
                        captive[port.Text] = word == "captive";
                    }
                    else
                    {
                        Fault(fact, ProductFaultCodes.ValueWrong, "\"cable: captive\" or \"cable: detachable\" was expected");
                    }
                }
            }

            return captive.ToImmutable();
        }

        private ImmutableArray<ProductCapture> Captures(YamlNode value)
        {
            List<ProductCapture> captures = [];
            foreach (YamlNode item in Items(value, "captures"))
            {
                if (captures.Count == MostCaptures)
                {
                    Fault(item, ProductFaultCodes.ValueWrong, $"a product file names at most {MostCaptures} captures");
                    break;
                }

                if (Capture(item) is { } capture)
                {
                    captures.Add(capture);
                }
            }

            return [.. captures];
        }

        private ProductCapture? Capture(YamlNode item)
        {
            (string? file, YamlNode? at, string? port, ImmutableArray<string> inUse) = (null, null, null, []);
            CaptureReadOptions reading = new();
            string? measurementsFile = null;
            foreach ((YamlText key, YamlNode value) in Entries(item, "captures"))
            {
                switch (key.Text)
                {
                    case "file":
                        (file, at) = (Text(value, "file"), value);
                        break;
                    case "port":
                        port = Text(value, "port");
                        break;
                    case "in_use":
                        inUse = [.. Items(value, "in_use").Select(node => Text(node, "in_use")).OfType<string>()];
                        break;
                    case "columns":
                        reading = reading with { Table = Columns(value, ofMeasurements: false) };
                        break;
                    case "measurements":
                        (measurementsFile, MeasurementOptions? measurements) = Measurements(value);
                        reading = reading with { Measurements = measurements };
                        break;
                    default:
                        Fault(key, ProductFaultCodes.MemberUnused, $"\"{key.Text}\" is not a member of a capture and was passed over");
                        break;
                }
            }

            if (string.IsNullOrWhiteSpace(file))
            {
                Fault(item, ProductFaultCodes.ValueWrong, "a capture needs \"file:\"");
                return null;
            }

            if (!RelativePath.StaysInside(file))
            {
                Fault(
                    at ?? item, ProductFaultCodes.PathLeavesFolder,
                    $"\"{file}\" leaves the product's folder; put the capture beside the product file and name it relative to it");
                return null;
            }

            return new ProductCapture(file, port, inUse) { Reading = reading, MeasurementsFile = measurementsFile };
        }

        private (string? File, MeasurementOptions? Options) Measurements(YamlNode node)
        {
            (string? file, MeasurementOptions options) = (null, new());
            foreach ((YamlText key, YamlNode value) in Entries(node, "measurements"))
            {
                switch (key.Text)
                {
                    case "file":
                        file = Text(value, "file");
                        break;
                    case "offset" when MeasurementOptions.TryParseOffset(Text(value, "offset") ?? "", out long offset):
                        options = options with { OffsetUs = offset };
                        break;
                    case "offset":
                        Fault(value, ProductFaultCodes.ValueWrong, "a time with its unit was expected in \"offset\", for example 1.25s");
                        break;
                    case "columns":
                        options = options with { Columns = Columns(value, ofMeasurements: true) };
                        break;
                    default:
                        Fault(key, ProductFaultCodes.MemberUnused, $"\"{key.Text}\" is not a member of measurements and was passed over");
                        break;
                }
            }

            if (file is not null && RelativePath.StaysInside(file))
            {
                return (file, options);
            }

            Fault(
                node, file is null ? ProductFaultCodes.ValueWrong : ProductFaultCodes.PathLeavesFolder,
                file is null ? "measurements need \"file:\"" : $"\"{file}\" leaves the product's folder; put it beside the product file");
            return (null, null);
        }

        private TableMapping Columns(YamlNode node, bool ofMeasurements)
        {
            TableMapping mapping = TableProfile.Read(node, ofMeasurements, out string? problem);
            if (problem is not null)
            {
                Fault(node, ProductFaultCodes.ValueWrong, problem);
            }

            return mapping;
        }

        private IEnumerable<(YamlText Key, YamlNode Value)> Entries(YamlNode node, string where)
        {
            if (node is YamlMap map)
            {
                return map.Entries;
            }

            Fault(node, ProductFaultCodes.ValueWrong, $"names with values were expected in \"{where}\"");
            return [];
        }

        private IEnumerable<YamlNode> Items(YamlNode node, string where)
        {
            if (node is YamlList list)
            {
                return list.Items;
            }

            Fault(node, ProductFaultCodes.ValueWrong, $"a list was expected in \"{where}\"");
            return [];
        }

        private string? Text(YamlNode node, string where)
        {
            if (node is YamlText text)
            {
                return text.Text;
            }

            Fault(node, ProductFaultCodes.ValueWrong, $"text was expected in \"{where}\"");
            return null;
        }

        private void Fault(YamlNode at, string code, string detail) =>
            _faults.Add(new CaptureFault(at.Line, at.Column, code, detail));
    }
}
