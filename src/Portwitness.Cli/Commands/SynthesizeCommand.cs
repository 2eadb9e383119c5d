using System.CommandLine;
using Grpc.Core;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>synthesize: a capture from a script.</summary>
internal static class SynthesizeCommand
{
    // A capture may go into a file of any name; only these endings ask for something else than lines of text.
    private static readonly string[] OtherEndings = [".pcapng", ".ntar", ".vcd", ".gz"];

    public static Command Create(Terminal terminal)
    {
        Argument<string> script = new Argument<string>("SCRIPT")
        {
            Description = "the script, in YAML, as captures/SYNTHESIS.md defines it; - is standard input",
        }.RefuseOptions();
        CommonOptions common = new();
        Option<string> output = new("--output")
        {
            Description = "write the capture to this file, which appears whole or not at all; without it, to standard output. How its name\n"
                + "ends tells the format: .jsonl, .pcapng or .vcd, each also with .gz; any other name gets jsonl",
            HelpName = "FILE",
        };
        Option<string> to = new("--to")
        {
            Description = "the format to write, where the name of the file does not tell it: jsonl, pcapng or vcd, each also with .gz",
            HelpName = "FORMAT",
        };
        Command command = new("synthesize", "Write a capture from a script of what a source, a sink and a cable say, for demonstrations and tests.")
        {
            script, output, to, common.Server,
        };
        command.Show(
            "portwitness synthesize c1.synthesis.yaml --output c1.capture.jsonl",
            "portwitness synthesize c1.synthesis.yaml --output c1.vcd",
            "portwitness synthesize c1.synthesis.yaml | portwitness decode - --messages");
        command.SetAction(async (parsed, cancellation) =>
        {
            InputFile input = InputFile.From(parsed.GetRequiredValue(script), terminal);
            string path = parsed.GetValue(output) ?? InputFile.StandardInput;
            SynthesizeRequest request = new()
            {
                File = input.Name,
                Text = await TextInput.ReadAsync(input, cancellation),
                To = parsed.GetValue(to) ?? (IsOfOtherFormat(path) ? path : ""),
            };
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using AsyncServerStreamingCall<SynthesizeResponse> call =
                service.Client.Synthesize(request, cancellationToken: cancellation);
            using ConvertedFile file = new(path, terminal);
            return await WriteAsync(call.ResponseStream, file, terminal, cancellation);
        });
        return command;
    }

    private static bool IsOfOtherFormat(string path) => OtherEndings.Any(ending => path.EndsWith(ending, StringComparison.OrdinalIgnoreCase));

    private static async Task<int> WriteAsync(
        IAsyncStreamReader<SynthesizeResponse> responses, ConvertedFile file, Terminal terminal, CancellationToken cancellation)
    {
        while (await responses.MoveNext(cancellation))
        {
            switch (responses.Current.PartCase)
            {
                case SynthesizeResponse.PartOneofCase.Faults:
                    foreach (Fault fault in responses.Current.Faults.Faults)
                    {
                        terminal.Say(FaultListText.Of(fault));
                    }

                    return ExitCode.Unusable;
                case SynthesizeResponse.PartOneofCase.End:
                    terminal.Say($"left out, as the format has no place for them: {string.Join(", ", responses.Current.End.LeftOut.Select(left => $"{left.Count} {left.Kind}"))}");
                    break;
                default:
                    await file.WriteAsync(responses.Current.Data, cancellation);
                    break;
            }
        }

        file.Commit();
        return ExitCode.Clean;
    }
}
