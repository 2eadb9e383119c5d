using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Measurements;
using Portwitness.Captures.Quoted;
using Portwitness.Captures.Tables;
using Portwitness.Captures.Waveforms;
using Portwitness.Product;
using Portwitness.Service.Validation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>How a capture is to be read.</summary>
internal static class ReadingTranslation
{
    /// <summary>Reads the options; what is wrong with them is added to the request's faults.</summary>
    public static CaptureReadOptions ReadReading(
        this InvalidRequest invalid, string field, Wire.ReadOptions? options, ServiceLimits limits)
    {
        if (options is null)
        {
            return new CaptureReadOptions();
        }

        invalid.CheckName($"{field}.port", options.Port, limits);
        return new CaptureReadOptions
        {
            Port = options.Port.Length == 0 ? null : options.Port,
            Quoted = Quoted(invalid, $"{field}.quoted", options.Quoted),
            Table = options.Table is null ? null : Table(invalid, $"{field}.table", options.Table, limits),
            Measurements = options.Measurements is null
                ? null
                : Measurements(invalid, $"{field}.measurements", options.Measurements, limits),
            Waveform = options.Waveform is null
                ? new WaveformOptions()
                : Waveform(invalid, $"{field}.waveform", options.Waveform, limits),
        };
    }

    private static QuotedForm? Quoted(InvalidRequest invalid, string field, string text)
    {
        if (QuotedForms.TryParse(text, out QuotedForm form))
        {
            return form;
        }

        if (text.Length > 0)
        {
            invalid.Add(field, QuotedForms.Expected);
        }

        return null;
    }

    /// <summary>Finds the format to write by its name or a file's; null, and a fault of the request, when there is none.</summary>
    public static (CaptureFormat? Format, bool Packed) ReadFormat(this InvalidRequest invalid, string field, string to, ServiceLimits limits)
    {
        invalid.CheckName(field, to, limits);
        (CaptureFormat? format, bool packed) = CaptureFormats.Find(to);
        if (format is null)
        {
            string names = string.Join(" or ", CaptureFormats.All.Select(known => $"{known.Name} ({string.Join(", ", known.Endings)})"));
            invalid.Add(field, $"tells no format that can be written; expected {names}, each also with .gz.");
        }

        return (format, packed);
    }

    public static Wire.NeedPiece ToContract(this NeededInput wanted, string file) => new()
    {
        File = file,
        Input = wanted == NeededInput.Measurements ? Wire.Input.Measurements : Wire.Input.Capture,
    };

    private static TableMapping? Table(InvalidRequest invalid, string field, Wire.TableMapping table, ServiceLimits limits)
    {
        invalid.CheckName($"{field}.columns", table.Columns, limits);
        invalid.CheckText($"{field}.profile", table.Profile, limits);
        TableMapping mapping = TableMapping.Parse(table.Columns, out string? problem);
        Add(invalid, $"{field}.columns", problem);
        mapping = mapping.Or(Profile(invalid, $"{field}.profile", table.Profile, ofMeasurements: false))
            .WithTimeUnit(table.TimeUnit, out problem);
        Add(invalid, $"{field}.time_unit", problem);
        return mapping.Columns.IsEmpty ? null : mapping;
    }

    private static MeasurementOptions Measurements(
        InvalidRequest invalid, string field, Wire.MeasurementJoin join, ServiceLimits limits)
    {
        invalid.CheckName($"{field}.file", join.File, limits);
        invalid.CheckName($"{field}.columns", join.Columns, limits);
        invalid.CheckText($"{field}.profile", join.Profile, limits);
        TableMapping mapping = TableMapping.ParseMeasurements(join.Columns, out string? problem);
        Add(invalid, $"{field}.columns", problem);
        long offset = 0;
        if (join.Offset.Length > 0 && !MeasurementOptions.TryParseOffset(join.Offset, out offset))
        {
            invalid.Add($"{field}.offset", "no time with its unit; expected for example 1.25s, -40ms or 250us.");
        }

        MeasuringPoint measuredAt = MeasuringPoint.Unknown;
        if (join.MeasuredAt.Length > 0 && !MeasuringWords.TryParsePoint(join.MeasuredAt, out measuredAt))
        {
            invalid.Add($"{field}.measured_at", MeasuringWords.ExpectedPoint);
        }

        invalid.CheckName($"{field}.accuracy", join.Accuracy, limits);
        MeasuringAccuracy? accuracy = null;
        if (join.Accuracy.Length > 0 && !MeasuringWords.TryParseAccuracy(join.Accuracy, out accuracy))
        {
            invalid.Add($"{field}.accuracy", MeasuringWords.ExpectedAccuracy);
        }

        return new MeasurementOptions
        {
            Columns = mapping.Or(Profile(invalid, $"{field}.profile", join.Profile, ofMeasurements: true)),
            OffsetUs = offset,
            MeasuredAt = measuredAt,
            Accuracy = accuracy,
        };
    }

    private static WaveformOptions Waveform(InvalidRequest invalid, string field, Wire.Waveform waveform, ServiceLimits limits)
    {
        invalid.CheckName($"{field}.signal", waveform.Signal, limits);
        WaveformOptions read = new() { Signal = waveform.Signal.Length == 0 ? null : waveform.Signal };
        if (waveform.Samples.Length > 0)
        {
            if (WaveformOptions.ParseSamples(waveform.Samples) is { } samples)
            {
                read = read.With(samples);
            }
            else
            {
                invalid.Add($"{field}.samples", WaveformOptions.ExpectedSamples);
            }
        }

        if (waveform.Levels.Length > 0)
        {
            if (WaveformOptions.TryParseLevels(waveform.Levels, read.Samples, out (int, int) levels))
            {
                read = read with { Levels = levels };
            }
            else
            {
                invalid.Add($"{field}.levels", WaveformOptions.ExpectedLevels);
            }
        }

        if (waveform.Units.Length > 0)
        {
            if (WaveformOptions.TryParseUnits(waveform.Units, out (int, int) units))
            {
                read = read with { Units = units };
            }
            else
            {
                invalid.Add($"{field}.units", WaveformOptions.ExpectedUnits);
            }
        }

        return read;
    }

    private static TableMapping Profile(InvalidRequest invalid, string field, string text, bool ofMeasurements)
    {
        if (text.Length == 0)
        {
            return new TableMapping();
        }

        TableMapping mapping = TableProfile.Read(text, ofMeasurements, out string? problem);
        Add(invalid, field, problem);
        return mapping;
    }

    private static void Add(InvalidRequest invalid, string field, string? problem)
    {
        if (problem is not null)
        {
            invalid.Add(field, problem);
        }
    }
}
