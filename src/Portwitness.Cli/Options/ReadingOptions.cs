using System.CommandLine;
using System.CommandLine.Parsing;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Options;

/// <summary>The options that say how a capture is read: port, columns of a table, measurements, the CC line's recording.</summary>
internal sealed class ReadingOptions
{
    public Option<string> Port { get; } = new("--port")
    {
        Description = "port to read from a pcapng file of several; without it the first",
        HelpName = "NAME",
    };

    public Option<string> Columns { get; } = new("--columns")
    {
        Description = "columns of a table, by number or heading, with a unit of time: time=1:ms,sop=3,hex=7; also direction, header, crc",
        HelpName = "MAPPING",
    };

    public Option<string> ColumnsFrom { get; } = new("--columns-from")
    {
        Description = "read the columns from a profile in YAML, as captures/FORMAT.md shows; --columns goes before it",
        HelpName = "FILE",
    };

    public Option<string> TimeUnit { get; } = new Option<string>("--time-unit")
    {
        Description = "unit of the table's time where neither --columns nor the heading says it",
        HelpName = "s|ms|us|ns",
    }.AcceptOnlyFromAmong("s", "ms", "us", "ns");

    public Option<string> Measurements { get; } = new("--measurements")
    {
        Description = "table of time, volts and amps that is joined in by time",
        HelpName = "FILE",
    };

    public Option<string> Offset { get; } = new("--offset")
    {
        Description = "when the measuring began, as the capture counts, for example 1.25s or -40ms",
        HelpName = "TIME",
    };

    public Option<string> MeasurementColumns { get; } = new("--measurement-columns")
    {
        Description = "columns of the measurements: time=1:s,volts=2:mV,amps=3:mA",
        HelpName = "MAPPING",
    };

    public Option<string> MeasuredAt { get; } = new Option<string>("--measured-at")
    {
        Description = "where the measurements were taken: at the port's connector, behind the cable, or between them",
        HelpName = "source|sink|tester",
    }.AcceptOnlyFromAmong("source", "sink", "tester");

    public Option<string> Accuracy { get; } = new("--accuracy")
    {
        Description = "how far the measurements may be off: volts=0.05%+5mV,amps=0.1%+5mA",
        HelpName = "ACCURACY",
    };

    public Option<string> Signal { get; } = new("--signal")
    {
        Description = "signal of a VCD file (cc1, top.cc1) or column of a table of voltages that is the CC line",
        HelpName = "NAME",
    };

    public Option<string> Samples { get; } = new("--samples")
    {
        Description = "the file is nothing but samples of the CC line: bit, bit-high-first, u8, i16, f32 or text, and the rate: u8@25MS/s; u8.gz@25MS/s when compressed,\nu8[2]@4MS/s for bit 2 of each sample",
        HelpName = "KIND@RATE",
    };

    public Option<string> Levels { get; } = new("--levels")
    {
        Description = "low and high level of a voltage, in volts or in steps of u8 and i16: 0.4,0.7; found from the recording without it",
        HelpName = "LOW,HIGH",
    };

    public Option<string> Units { get; } = new("--units")
    {
        Description = "units of a table of voltages where its heading does not say them: us,mV",
        HelpName = "TIME,VOLTAGE",
    };

    public Option<string> Quoted { get; } = new Option<string>("--quoted")
    {
        Description = "the file is a text that quotes a list, perhaps in part, of which nothing else tells that: objects as words\n(0x0801912C), or as bytes, the lowest first (2C 91 01 08)",
        HelpName = "words|bytes",
    }.AcceptOnlyFromAmong("words", "bytes");

    /// <summary>Adds them to a command; one that has a --port of its own keeps it, and one that judges no VBUS takes no measurements.</summary>
    public void AddTo(Command command, bool port = true, bool measurements = true)
    {
        if (port)
        {
            command.Add(Port);
        }

        Option[] measuring = measurements ? [Measurements, Offset, MeasurementColumns, MeasuredAt, Accuracy] : [];
        foreach (Option option in (Option[])[Columns, ColumnsFrom, TimeUnit, .. measuring, Signal, Samples, Levels, Units, Quoted])
        {
            command.Add(option);
        }

        command.Validators.Add(result =>
        {
            if (result.GetValue(Measurements) is null
                && new Option[] { Offset, MeasurementColumns, MeasuredAt, Accuracy }.Any(option => result.GetResult(option) is not null))
            {
                result.AddError("--offset, --measurement-columns, --measured-at and --accuracy go with --measurements.");
            }
        });
    }

    /// <summary>Whether anything was said.</summary>
    public bool IsGiven(CommandResult result) => new Option[]
    {
        Port, Columns, ColumnsFrom, TimeUnit, Measurements, Signal, Samples, Levels, Units, Quoted,
    }.Any(option => result.GetResult(option) is not null);

    /// <summary>The measurements' file; null for none.</summary>
    public InputFile? MeasurementsFrom(ParseResult parsed, Terminal terminal) =>
        parsed.GetValue(Measurements) is { } path ? InputFile.From(path, terminal) : null;

    /// <summary>What the service is told; null when nothing was said.</summary>
    public async Task<ReadOptions?> ReadAsync(ParseResult parsed, Terminal terminal, CancellationToken cancellation)
    {
        if (!IsGiven(parsed.CommandResult))
        {
            return null;
        }

        string profile = parsed.GetValue(ColumnsFrom) is { } path
            ? await TextInput.ReadAsync(InputFile.From(path, terminal), cancellation)
            : "";
        string columns = parsed.GetValue(Columns) ?? "";
        string unit = parsed.GetValue(TimeUnit) ?? "";
        ReadOptions read = new() { Port = parsed.GetValue(Port) ?? "", Quoted = parsed.GetValue(Quoted) ?? "" };
        if (columns.Length + profile.Length + unit.Length > 0)
        {
            read.Table = new TableMapping { Columns = columns, TimeUnit = unit, Profile = profile };
        }

        if (new[] { Signal, Samples, Levels, Units }.Any(option => parsed.GetResult(option) is not null))
        {
            read.Waveform = new Waveform
            {
                Signal = parsed.GetValue(Signal) ?? "",
                Samples = parsed.GetValue(Samples) ?? "",
                Levels = parsed.GetValue(Levels) ?? "",
                Units = parsed.GetValue(Units) ?? "",
            };
        }

        if (MeasurementsFrom(parsed, terminal) is { } measurements)
        {
            read.Measurements = new MeasurementJoin
            {
                File = measurements.Name,
                Columns = parsed.GetValue(MeasurementColumns) ?? "",
                Offset = parsed.GetValue(Offset) ?? "",
                Profile = profile,
                MeasuredAt = parsed.GetValue(MeasuredAt) ?? "",
                Accuracy = parsed.GetValue(Accuracy) ?? "",
            };
        }

        return read;
    }
}
