using System.CommandLine;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Json;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>convert: a capture from one format to another.</summary>
internal static class ConvertCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> from = new Argument<string>("IN")
        {
            Description = "the capture, in any format that is read; - is standard input",
        }.RefuseOptions();
        Argument<string> into = new Argument<string>("OUT")
        {
            Description = "the file to write, which appears whole or not at all; - is standard output. How its name ends tells the format:\n"
                + ".jsonl, .pcapng or .vcd, each also with .gz",
        }.RefuseOptions();
        Option<string> to = new("--to")
        {
            Description = "the format to write, where the name of OUT does not tell it: jsonl, pcapng or vcd, each also with .gz",
            HelpName = "FORMAT",
        };
        ReadingOptions reading = new();
        CommonOptions common = new();
        Command command = new(
            "convert",
            "Write a capture in another format. What both formats can carry is kept; what has no place in the new one is counted\n"
            + "and said.")
        {
            from, into, to, common.Server, common.Format, common.Quiet,
        };
        reading.AddTo(command);
        command.Validators.Add(result =>
        {
            if (result.GetValue(into) == InputFile.StandardInput && result.GetValue(to) is null)
            {
                result.AddError("--to says which format standard output gets.");
            }
            else if (result.GetValue(from) == InputFile.StandardInput && result.GetValue(reading.Measurements) == InputFile.StandardInput)
            {
                result.AddError("standard input (-) can be read once only.");
            }
        });
        command.Show(
            "portwitness convert c1.capture.jsonl c1.pcapng",
            "portwitness convert both.pcapng c2.capture.jsonl.gz --port C2",
            "portwitness convert analyser.csv c1.pcapng --columns time=1:ms,sop=3,hex=7",
            "portwitness convert c1.pcapng c1.capture.jsonl --measurements meter.csv --offset 1.25s",
            "portwitness convert port0.log - --to jsonl");
        command.SetAction(async (parsed, cancellation) =>
        {
            string output = parsed.GetRequiredValue(into);
            CaptureSource source = new(
                InputFile.CaptureFrom(parsed.GetRequiredValue(from), terminal),
                await reading.ReadAsync(parsed, terminal, cancellation), reading.MeasurementsFrom(parsed, terminal),
                common.ProgressFor(parsed, terminal));
            ConvertOptions options = new() { File = source.Capture.Name, To = parsed.GetValue(to) ?? output };
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using ConvertedFile file = new(output, terminal);
            Conversion conversion = await ConvertDialogue.RunAsync(service.Client, source, options, file.WriteAsync, cancellation);
            if (conversion.From.Length > 0)
            {
                file.Commit();
            }

            Tell(conversion, output, terminal, quiet: parsed.GetValue(common.Quiet), json: common.IsJson(parsed));
            return conversion.From.Length > 0 ? ExitCode.Clean : ExitCode.Unusable;
        });
        return command;
    }

    // Standard output may be the capture itself; then what is said goes to standard error.
    private static void Tell(Conversion conversion, string output, Terminal terminal, bool quiet, bool json)
    {
        bool unusable = conversion.From.Length == 0;
        TextWriter writer = output == InputFile.StandardInput ? terminal.Error : terminal.Output;
        if (json && !quiet)
        {
            JsonReport.Write(writer, conversion, indented: false);
        }

        if (unusable || (!quiet && !json))
        {
            ConversionText.Write(unusable ? terminal.Error : writer, conversion, output);
        }
    }
}
