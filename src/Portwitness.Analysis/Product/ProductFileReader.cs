using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Analysis.Yaml;
using Portwitness.Captures;
using Portwitness.Captures.Waveforms;
using Portwitness.Labels;

namespace Portwitness.Analysis.Product;

/// <summary>Reads the text of a product.yaml. What is wrong is reported with its place; the rest is still read.</summary>
public static class ProductFileReader
{
    /// <summary>Longest text, in characters.</summary>
    public const int MostCharacters = 1 << 20;

    private const int MostCaptures = 10_000;
    private const int MostCorrections = 200;

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
        private readonly YamlValues _values = new();

        public ProductFile Read(YamlMap map)
        {
            ProductFile product = new();
            foreach ((YamlText key, YamlNode value) in map.Entries)
            {
                product = key.Text switch
                {
                    "product" => product with { Product = _values.Text(value, "product") ?? "" },
                    "label" => product with { Label = _values.Text(value, "label") },
                    "label_corrections" => product with { Corrections = Corrections(value) },
                    "ratings" => product with { Ratings = RatingsReader.Read(value, _values) },
                    "ports" => product with { CaptivePorts = Ports(value) },
                    "captures" => product with { Captures = Captures(value) },
                    "battery" or "discharges" => Note(product, key, "is not judged by this version"),
                    _ => Note(product, key, "is not a member of a product file and was passed over"),
                };
            }

            if (product.Captures.IsEmpty && _values.Faults.TrueForAll(f => f.Code != ProductFaultCodes.PathLeavesFolder))
            {
                _values.Fault(map, ProductFaultCodes.NoCaptures, "no captures are named; add \"captures:\" with a file and its port");
            }

            if (product is { Label: not null, Ratings: not null })
            {
                _values.Fault(map, ProductFaultCodes.ValueWrong, "\"label:\" and \"ratings:\" are both given; the label is read, the ratings are not");
            }

            return product with { Faults = [.. _values.Faults] };
        }

        private ProductFile Note(ProductFile product, YamlText key, string why)
        {
            _values.Fault(key, ProductFaultCodes.MemberUnused, $"\"{key.Text}\" {why}");
            return product;
        }

        private ImmutableDictionary<string, bool> Ports(YamlNode value)
        {
            ImmutableDictionary<string, bool>.Builder captive = ImmutableDictionary.CreateBuilder<string, bool>();
            foreach ((YamlText port, YamlNode facts) in _values.Entries(value, "ports"))
            {
                foreach ((YamlText fact, YamlNode stated) in _values.Entries(facts, port.Text))
                {
                    string? word = fact.Text == "cable" ? _values.Text(stated, "cable") : null;
                    if (word is "captive" or "detachable")
                    {
                        captive[port.Text] = word == "captive";
                    }
                    else
                    {
                        _values.Fault(fact, ProductFaultCodes.ValueWrong, "\"cable: captive\" or \"cable: detachable\" was expected");
                    }
                }
            }

            return captive.ToImmutable();
        }

        private ImmutableArray<ProductCorrection> Corrections(YamlNode value)
        {
            List<ProductCorrection> corrections = [];
            foreach (YamlNode item in _values.Items(value, "label_corrections").Take(MostCorrections))
            {
                (int line, string? printed, string? readAs) = (0, null, null);
                foreach ((YamlText key, YamlNode fact) in _values.Entries(item, "label_corrections"))
                {
                    string? text = _values.Text(fact, key.Text);
                    (line, printed, readAs) = key.Text switch
                    {
                        "line" => (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : 0, printed, readAs),
                        "printed" => (line, text, readAs),
                        "read_as" => (line, printed, text),
                        _ => (line, printed, readAs),
                    };
                }

                if (line > 0 && !string.IsNullOrEmpty(printed) && !string.IsNullOrEmpty(readAs) && !readAs.AsSpan().ContainsAny('\n', '\r'))
                {
                    corrections.Add(new ProductCorrection(new LabelCorrection(line, printed, readAs), item.Line, item.Column));
                }
                else
                {
                    _values.Fault(
                        item, ProductFaultCodes.ValueWrong, "a correction needs \"line:\", \"printed:\" and \"read_as:\", as {line: 2, printed: 9V#3A, read_as: 9V 3A}");
                }
            }

            return [.. corrections];
        }

        private ImmutableArray<ProductCapture> Captures(YamlNode value)
        {
            List<ProductCapture> captures = [];
            foreach (YamlNode item in _values.Items(value, "captures"))
            {
                if (captures.Count == MostCaptures)
                {
                    _values.Fault(item, ProductFaultCodes.ValueWrong, $"a product file names at most {MostCaptures} captures");
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
            YamlNode? levels = null;
            foreach ((YamlText key, YamlNode value) in _values.Entries(item, "captures"))
            {
                switch (key.Text)
                {
                    case "file":
                        (file, at) = (_values.Text(value, "file"), value);
                        break;
                    case "port":
                        port = _values.Text(value, "port");
                        break;
                    case "in_use":
                        inUse = [.. _values.Items(value, "in_use").Select(node => _values.Text(node, "in_use")).OfType<string>()];
                        break;
                    case "columns":
                        reading = reading with { Table = Columns(value, ofMeasurements: false) };
                        break;
                    case "measurements":
                        (measurementsFile, MeasurementOptions? measurements) = Measurements(value);
                        reading = reading with { Measurements = measurements };
                        break;
                    case "signal":
                        reading = reading with { Waveform = reading.Waveform with { Signal = _values.Text(value, "signal") } };
                        break;
                    case "samples" when WaveformOptions.TryParseSamples(_values.Text(value, "samples") ?? "", out SampleKind kind, out long rate, out bool packed):
                        reading = reading with { Waveform = reading.Waveform with { Samples = kind, SampleRate = rate, SamplesPacked = packed } };
                        break;
                    case "samples":
                        _values.Fault(value, ProductFaultCodes.ValueWrong, WaveformOptions.ExpectedSamples);
                        break;
                    case "levels":
                        levels = value;
                        break;
                    case "units" when WaveformOptions.TryParseUnits(_values.Text(value, "units") ?? "", out (int, int) units):
                        reading = reading with { Waveform = reading.Waveform with { Units = units } };
                        break;
                    case "units":
                        _values.Fault(value, ProductFaultCodes.ValueWrong, WaveformOptions.ExpectedUnits);
                        break;
                    default:
                        _values.Fault(key, ProductFaultCodes.MemberUnused, $"\"{key.Text}\" is not a member of a capture and was passed over");
                        break;
                }
            }

            // What a level is in depends on the kind of samples, wherever that stands.
            if (levels is not null && WaveformOptions.TryParseLevels(_values.Text(levels, "levels") ?? "", reading.Waveform.Samples, out (int, int) found))
            {
                reading = reading with { Waveform = reading.Waveform with { Levels = found } };
            }
            else if (levels is not null)
            {
                _values.Fault(levels, ProductFaultCodes.ValueWrong, WaveformOptions.ExpectedLevels);
            }

            if (string.IsNullOrWhiteSpace(file))
            {
                _values.Fault(item, ProductFaultCodes.ValueWrong, "a capture needs \"file:\"");
                return null;
            }

            if (!RelativePath.StaysInside(file))
            {
                _values.Fault(
                    at ?? item, ProductFaultCodes.PathLeavesFolder,
                    $"\"{file}\" leaves the product's folder; put the capture beside the product file and name it relative to it");
                return null;
            }

            return new ProductCapture(file, port, inUse) { Reading = reading, MeasurementsFile = measurementsFile };
        }

        private (string? File, MeasurementOptions? Options) Measurements(YamlNode node)
        {
            (string? file, MeasurementOptions options) = (null, new());
            foreach ((YamlText key, YamlNode value) in _values.Entries(node, "measurements"))
            {
                switch (key.Text)
                {
                    case "file":
                        file = _values.Text(value, "file");
                        break;
                    case "offset" when MeasurementOptions.TryParseOffset(_values.Text(value, "offset") ?? "", out long offset):
                        options = options with { OffsetUs = offset };
                        break;
                    case "offset":
                        _values.Fault(value, ProductFaultCodes.ValueWrong, "a time with its unit was expected in \"offset\", for example 1.25s");
                        break;
                    case "columns":
                        options = options with { Columns = Columns(value, ofMeasurements: true) };
                        break;
                    case "measured_at" when MeasuringWords.TryParsePoint(_values.Text(value, "measured_at") ?? "", out MeasuringPoint point):
                        options = options with { MeasuredAt = point };
                        break;
                    case "measured_at":
                        _values.Fault(value, ProductFaultCodes.ValueWrong, MeasuringWords.ExpectedPoint);
                        break;
                    case "accuracy":
                        options = options with { Accuracy = Accuracy(value) };
                        break;
                    default:
                        _values.Fault(key, ProductFaultCodes.MemberUnused, $"\"{key.Text}\" is not a member of measurements and was passed over");
                        break;
                }
            }

            if (file is not null && RelativePath.StaysInside(file))
            {
                return (file, options);
            }

            _values.Fault(
                node, file is null ? ProductFaultCodes.ValueWrong : ProductFaultCodes.PathLeavesFolder,
                file is null ? "measurements need \"file:\"" : $"\"{file}\" leaves the product's folder; put it beside the product file");
            return (null, null);
        }

        // {volts: 0.05%+5mV, amps: 0.1%+5mA}, or the same in one text.
        private MeasuringAccuracy? Accuracy(YamlNode node)
        {
            string text = node is YamlMap map
                ? string.Join(',', map.Entries.Select(entry => $"{entry.Key.Text}={(entry.Value as YamlText)?.Text}"))
                : (node as YamlText)?.Text ?? "";
            if (!MeasuringWords.TryParseAccuracy(text, out MeasuringAccuracy? accuracy))
            {
                _values.Fault(node, ProductFaultCodes.ValueWrong, MeasuringWords.ExpectedAccuracy);
            }

            return accuracy;
        }

        private TableMapping Columns(YamlNode node, bool ofMeasurements)
        {
            TableMapping mapping = TableProfile.Read(node, ofMeasurements, out string? problem);
            if (problem is not null)
            {
                _values.Fault(node, ProductFaultCodes.ValueWrong, problem);
            }

            return mapping;
        }
    }
}
