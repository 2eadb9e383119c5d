using System.CommandLine;
using System.Text;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Commands;

/// <summary>decode: what captures hold.</summary>
internal static class DecodeCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string[]> files = new Argument<string[]>("FILE")
        {
            Description = "captures: *.capture.jsonl, pcapng, kernel port logs, the kernel's power-delivery directory (the folder itself, a tar\n"
                + "archive, or what grep -r prints of it), tables with columns of time, SOP kind and hex, lists of 32-bit words or of typed\n"
                + "offers; each also compressed by gzip, or in a zip or tar archive; a folder of one instrument's exports;\n"
                + "- is standard input",
            Arity = ArgumentArity.ZeroOrMore,
        }.RefuseOptions();
        Option<string> words = new("--words")
        {
            Description = "Power Data Objects as hexadecimal words, in place of a file",
            HelpName = "WORDS",
        };
        OffersOption offers = new();
        Option<bool> messages = new("--messages") { Description = "list every message too" };
        Option<long> explain = new("--explain")
        {
            Description = "explain message N bit by bit: bits, field, raw value, meaning, table; counted from 1 as --messages shows it",
            HelpName = "N",
        };
        ReadingOptions reading = new();
        CommonOptions common = new();
        Command command = new("decode", "Show what captures hold: capability lists, contracts, findings; in V, A, W and seconds.")
        {
            files, words, offers.Text, messages, explain,
        };
        reading.AddTo(command);
        common.AddTo(command, edition: true);
        command.Validators.Add(result =>
        {
            string[] named = result.GetValue(files) ?? [];
            if (new[] { named.Length > 0, result.GetValue(words) is not null, result.GetValue(offers.Text) is not null }.Count(static given => given) != 1)
            {
                result.AddError("decode needs either files, --words or --offers.");
            }
            else if (result.GetResult(explain) is not null && result.GetValue(explain) < 1)
            {
                result.AddError("--explain takes the index of a message, counted from 1.");
            }
            else if (result.GetValue(reading.Measurements) is not null && named.Length > 1)
            {
                result.AddError("--measurements go with one capture.");
            }
            else if (named.Append(result.GetValue(reading.Measurements) ?? "").Count(name => name == InputFile.StandardInput) > 1)
            {
                result.AddError("standard input (-) can be read once only.");
            }
        });
        command.Show(
            "portwitness decode c1.capture.jsonl",
            "portwitness decode --words \"0x0801912C 0x0002D12C\"",
            "portwitness decode --offers \"5V 3A, 9V 3A, 15V 3A, 20V 3.35A, PPS 3.3-11V 5A\"",
            "portwitness decode /sys/class/typec/port0-partner/usb_power_delivery",
            "portwitness decode *.capture.jsonl --format json      one object a line, in the order of the files",
            "portwitness decode c1.capture.jsonl --explain 3",
            "portwitness decode bench.vcd --signal top.cc1",
            "portwitness decode cc1.bin --samples u8@25MS/s",
            "portwitness decode port0.log --messages --output c1.txt",
            "portwitness decode both.pcapng --port C2",
            "portwitness decode analyser.csv --columns time=1,sop=3,hex=7 --time-unit ms",
            "portwitness decode analyser.csv --columns-from analyser.yaml --measurements meter.csv --offset 1.25s",
            "ssh bench cat c1.capture.jsonl | portwitness decode -");
        command.SetAction(async (parsed, cancellation) =>
        {
            InputFile[] inputs = parsed.GetValue(words) is { } text
                ? [new InputFile("words", () => new MemoryStream(Encoding.UTF8.GetBytes(text)))]
                : await offers.ReadAsync(parsed, terminal, cancellation) is { } typed ? [typed]
                : [.. parsed.GetRequiredValue(files).Select(file => InputFile.CaptureFrom(file, terminal))];
            Contracts.V1.ReadOptions? read = await reading.ReadAsync(parsed, terminal, cancellation);
            Progress progress = common.ProgressFor(parsed, terminal);
            CaptureSource[] sources =
                [.. inputs.Select(input => new CaptureSource(input, read, reading.MeasurementsFrom(parsed, terminal), progress))];
            return await new DecodeRun(terminal, common, parsed, parsed.GetValue(messages), parsed.GetValue(explain))
                .RunAsync(sources, cancellation);
        });
        return command;
    }
}
