using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Measurements;
using Portwitness.Captures.Quoted;
using Portwitness.Captures.Waveforms;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads one element of "captures:" of a product file.</summary>
internal sealed class ProductCaptureReader(YamlValues values)
{
    internal static readonly string[] Members =
        ["file", "port", "in_use", "columns", "measurements", "with", "offset", "signal", "samples", "levels", "units", "quoted", "read_on"];

    internal static readonly string[] MeasurementMembers = ["file", "offset", "columns", "measured_at", "accuracy"];

    /// <summary>The file that each capture names as the one on whose clock it is, with its place.</summary>
    public List<(string File, string With, YamlNode At)> Clocks { get; } = [];

    /// <summary>Reads it; null, with a fault, when it names no file that may be read.</summary>
    public ProductCapture? Read(YamlNode item)
    {
        (string? file, YamlNode? at, string? port, ImmutableArray<string> inUse) = (null, null, null, []);
        CaptureReadOptions reading = new();
        (string? measurementsFile, YamlText? with, YamlNode? offset) = (null, null, null);
        YamlNode? levels = null;
        string readOn = "";
        if (item is YamlText name)
        {
            // The header says the rest.
            (file, at) = (name.Text, item);
        }

        foreach ((YamlText key, YamlNode value) in item is YamlText ? [] : values.Entries(item, "captures"))
        {
            switch (key.Text)
            {
                case "file":
                    (file, at) = (values.Text(value, "file"), value);
                    break;
                case "port":
                    port = values.Text(value, "port");
                    break;
                case "in_use":
                    inUse = [.. values.Items(value, "in_use").Select(node => values.Text(node, "in_use")).OfType<string>()];
                    break;
                case "columns":
                    reading = reading with { Table = TableProfile.Read(value, ofMeasurements: false, values) };
                    break;
                case "measurements":
                    (measurementsFile, MeasurementOptions? measurements) = Measurements(value);
                    reading = reading with { Measurements = measurements };
                    break;
                case "with" when value is YamlText named:
                    with = named;
                    break;
                case "with":
                    values.Fault(value, ProductFaultCodes.ValueWrong, "the name of another capture was expected in \"with\"");
                    break;
                case "offset":
                    offset = value;
                    break;
                case "signal":
                    reading = reading with { Waveform = reading.Waveform with { Signal = values.Text(value, "signal") } };
                    break;
                case "samples" when WaveformOptions.ParseSamples(values.Text(value, "samples") ?? "") is { } samples:
                    reading = reading with { Waveform = reading.Waveform.With(samples) };
                    break;
                case "samples":
                    values.Fault(value, ProductFaultCodes.ValueWrong, WaveformOptions.ExpectedSamples);
                    break;
                case "read_on":
                    readOn = values.Text(value, "read_on")?.Trim() ?? "";
                    break;
                case "levels":
                    levels = value;
                    break;
                case "quoted" when QuotedForms.TryParse(values.Text(value, "quoted") ?? "", out QuotedForm form):
                    reading = reading with { Quoted = form };
                    break;
                case "quoted":
                    values.Fault(value, ProductFaultCodes.ValueWrong, QuotedForms.Expected);
                    break;
                case "units" when WaveformOptions.TryParseUnits(values.Text(value, "units") ?? "", out (int, int) units):
                    reading = reading with { Waveform = reading.Waveform with { Units = units } };
                    break;
                case "units":
                    values.Fault(value, ProductFaultCodes.ValueWrong, WaveformOptions.ExpectedUnits);
                    break;
                default:
                    values.Unknown(key, "a capture", Members);
                    break;
            }
        }

        // What a level is in depends on the kind of samples, wherever that stands.
        if (levels is not null && WaveformOptions.TryParseLevels(values.Text(levels, "levels") ?? "", reading.Waveform.Samples, out (int, int) found))
        {
            reading = reading with { Waveform = reading.Waveform with { Levels = found } };
        }
        else if (levels is not null)
        {
            values.Fault(levels, ProductFaultCodes.ValueWrong, WaveformOptions.ExpectedLevels);
        }

        if (string.IsNullOrWhiteSpace(file))
        {
            values.Fault(item, ProductFaultCodes.ValueWrong, "a capture needs \"file:\"");
            return null;
        }

        if (!RelativePath.StaysInside(file))
        {
            values.Fault(
                at ?? item, ProductFaultCodes.PathLeavesFolder,
                $"\"{file}\" leaves the product's folder; put the capture beside the product file and name it relative to it");
            return null;
        }

        return new ProductCapture(file, port, inUse)
        {
            Reading = reading, MeasurementsFile = measurementsFile, With = with?.Text == file ? null : with?.Text, OffsetUs = Clock(file, with, offset),
            ReadOn = readOn,
        };
    }

    private (string? File, MeasurementOptions? Options) Measurements(YamlNode node)
    {
        (string? file, MeasurementOptions options) = (null, new());
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "measurements"))
        {
            switch (key.Text)
            {
                case "file":
                    file = values.Text(value, "file");
                    break;
                case "offset":
                    options = options with { OffsetUs = Offset(value) ?? options.OffsetUs };
                    break;
                case "columns":
                    options = options with { Columns = TableProfile.Read(value, ofMeasurements: true, values) };
                    break;
                case "measured_at" when MeasuringWords.TryParsePoint(values.Text(value, "measured_at") ?? "", out MeasuringPoint point):
                    options = options with { MeasuredAt = point };
                    break;
                case "measured_at":
                    values.Fault(value, ProductFaultCodes.ValueWrong, MeasuringWords.ExpectedPoint);
                    break;
                case "accuracy":
                    options = options with { Accuracy = values.Accuracy(value) };
                    break;
                default:
                    values.Unknown(key, "measurements", MeasurementMembers);
                    break;
            }
        }

        if (file is not null && RelativePath.StaysInside(file))
        {
            return (file, options);
        }

        values.Fault(
            node, file is null ? ProductFaultCodes.ValueWrong : ProductFaultCodes.PathLeavesFolder,
            file is null ? "measurements need \"file:\"" : $"\"{file}\" leaves the product's folder; put it beside the product file");
        return (null, null);
    }

    private long Clock(string file, YamlText? with, YamlNode? offset)
    {
        if (with is not null)
        {
            Clocks.Add((file, with.Text, with));
        }
        else if (offset is not null)
        {
            values.Fault(offset, ProductFaultCodes.ValueWrong, "\"offset\" needs \"with:\", the file from whose time 0 it counts");
        }

        return offset is null ? 0 : Offset(offset) ?? 0;
    }

    private long? Offset(YamlNode value)
    {
        if (MeasurementOptions.TryParseOffset(values.Text(value, "offset") ?? "", out long offset))
        {
            return offset;
        }

        values.Fault(value, ProductFaultCodes.ValueWrong, "a time with its unit was expected in \"offset\", for example 1.25s");
        return null;
    }
}
