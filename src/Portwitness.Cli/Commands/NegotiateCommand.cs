using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>negotiate: what a device of a description would ask a source for, and get.</summary>
internal static class NegotiateCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> file = new Argument<string>("FILE")
        {
            Description = "capture of what the source offers, in any format that decode reads; - is standard input",
            Arity = ArgumentArity.ZeroOrOne,
        }.RefuseOptions();
        Option<string> words = new("--words")
        {
            Description = "Power Data Objects of the source as hexadecimal words, in place of a file",
            HelpName = "WORDS",
        };
        OffersOption offers = new();
        LabelOptions label = new();
        label.Text.Description = "a printed label, taken at its word, in place of a file; @FILE reads it from one";
        SinkOptions sinks = new();
        ReadingOptions reading = new();
        CommonOptions common = new();
        Command command = new(
            "negotiate",
            "Show what a described device would ask a source for, the power that it gets at start and at best, and why it passes over\n"
            + "better offers. Exit code 1 when a device does not get the minimum that it needs; with --fail-on caution, also when it\n"
            + "gets less than it wishes, or when that cannot be told.")
        {
            file, words, offers.Text, label.Text, label.File, label.Photo.Languages,
        };
        sinks.AddTo(command);
        label.AddValidatorTo(command);
        reading.AddTo(command, measurements: false);
        common.AddTo(command, edition: false);
        command.Validators.Add(result => Validate(result, file, words, offers, label, sinks, reading));
        command.Show(
            "portwitness negotiate c1.capture.jsonl --sink phone-pps-3a",
            "portwitness negotiate --words \"0x0801912C 0x0002D12C\" --sink phone.yaml",
            "portwitness negotiate --offers \"5V 3A, 9V 2.22A, PPS 3.3-11V 2A\" --sink phone-pps-3a",
            "portwitness negotiate c1.capture.jsonl --sink \"fixed 5V, 9V 2A; pps 3.3-11V 3A; wish 25W; minimum 10W; cable 3A; edition R3.0\"",
            "portwitness negotiate --label \"USB-C1: 5V⎓3A 9V⎓3A 20V⎓3.25A (65W Max)\" --sink laptop-65w --policy high-voltage",
            "portwitness negotiate c1.capture.jsonl --sink all --format json",
            "portwitness negotiate --list");
        command.SetAction(async (parsed, cancellation) =>
        {
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using ReportOutput output = new(terminal, common, parsed, single: true);
            if (parsed.GetValue(sinks.List))
            {
                return await ListAsync(service.Client, output, cancellation);
            }

            NegotiateOptions options = new() { Policy = parsed.GetValue(sinks.Policy) ?? "" };
            options.Sinks.AddRange(await sinks.ReadAsync(parsed, terminal, cancellation));
            InputFile input = new("label", static () => Stream.Null);
            if (await label.ReadAsync(parsed, terminal, cancellation) is { } printed)
            {
                options.Label = printed;
            }
            else
            {
                input = parsed.GetValue(words) is { } text
                    ? new InputFile("words", () => new MemoryStream(Encoding.UTF8.GetBytes(text)))
                    : await offers.ReadAsync(parsed, terminal, cancellation, label.Photo.From(parsed))
                    ?? InputFile.CaptureFrom(parsed.GetRequiredValue(file), terminal);
                options.Capture = new NegotiatedCapture { File = input.Name, Read = await reading.ReadAsync(parsed, terminal, cancellation) };
            }

            CaptureSource source = new(input, null, null, common.ProgressFor(parsed, terminal));
            NegotiationReport report = await NegotiateDialogue.RunAsync(service.Client, source, options, cancellation);
            return Write(report, terminal, output, parsed.GetRequiredValue(common.FailOnWord));
        });
        return command;
    }

    private static void Validate(
        CommandResult result, Argument<string> file, Option<string> words, OffersOption offers, LabelOptions label, SinkOptions sinks,
        ReadingOptions reading)
    {
        string? named = result.GetValue(file);
        int sources = new[] { named is not null, result.GetValue(words) is not null, result.GetValue(offers.Text) is not null, label.IsGiven(result) }.Count(static given => given);
        bool anySink = result.GetValue(sinks.Sinks) is { Length: > 0 };
        if (result.GetValue(sinks.List))
        {
            if (sources > 0 || anySink || result.GetValue(sinks.Policy) is not null)
            {
                result.AddError("--list goes alone; it lists the shipped devices and the policies.");
            }

            return;
        }

        if (sources != 1)
        {
            result.AddError("negotiate needs one source: a capture, --words, --offers, --label or --label-file.");
        }

        if (!anySink)
        {
            result.AddError("negotiate needs a device: --sink with the name of a shipped one ('portwitness negotiate --list' shows them),"
                + " a file in YAML, or words.");
        }

        if (label.IsGiven(result) && reading.IsGiven(result))
        {
            result.AddError("a label has no columns, signals or ports to choose; those options go with a capture.");
        }

        bool labelFromInput = result.GetValue(label.File) == InputFile.StandardInput || result.GetValue(label.Text) == "@-";
        if (new[] { named == InputFile.StandardInput, labelFromInput, sinks.AreFromStandardInput(result) }.Count(static from => from) > 1)
        {
            result.AddError("standard input (-) can be read once only.");
        }
    }

    private static async Task<int> ListAsync(Witness.WitnessClient client, ReportOutput output, CancellationToken cancellation)
    {
        ListSinksResponse list = await client.ListSinksAsync(new ListSinksRequest(), cancellationToken: cancellation);
        if (output.Json)
        {
            output.WriteJson(list);
        }
        else
        {
            SinkText.WriteList(output.Writer, list, output.Style);
        }

        output.Commit();
        return ExitCode.Clean;
    }

    private static int Write(NegotiationReport report, Terminal terminal, ReportOutput output, string failOn)
    {
        if (report.Unusable)
        {
            foreach (Fault fault in report.Faults)
            {
                terminal.Say(FaultListText.Of(fault));
            }
        }

        if (output.Json)
        {
            output.WriteJson(report);
        }
        else if (!report.Unusable)
        {
            NegotiationText.Write(output.Writer, report, output.Style);
        }

        output.Commit();
        return report.Unusable
            ? ExitCode.Unusable
            : FailOn.ExitCodeFor(failOn, report.Offers.SelectMany(static offer => offer.Negotiations).Select(SeverityOf));
    }

    // Too little to run on is a mismatch; less than is wished, or what cannot be told, is a caution.
    private static Severity SeverityOf(Contracts.V1.Negotiation negotiation) =>
        negotiation.GetsMinimum == Verdict.Fails ? Severity.Mismatch
        : negotiation.GetsWish == Verdict.Holds ? Severity.Unspecified
        : Severity.Caution;
}
