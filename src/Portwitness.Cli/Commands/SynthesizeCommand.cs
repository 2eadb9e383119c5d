using System.CommandLine;
using System.Text;
using Grpc.Core;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>synthesize: a capture from a script.</summary>
internal static class SynthesizeCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> script = new Argument<string>("SCRIPT")
        {
            Description = "the script, in YAML, as captures/SYNTHESIS.md defines it; - is standard input",
        }.RefuseOptions();
        CommonOptions common = new();
        Option<string> output = new("--output")
        {
            Description = "write the capture to this file, which appears whole or not at all; without it, to standard output",
            HelpName = "FILE",
        };
        Command command = new("synthesize", "Write a capture from a script of what a source, a sink and a cable say, for demonstrations and tests.")
        {
            script, output, common.Server,
        };
        command.Show(
            "portwitness synthesize c1.synthesis.yaml --output c1.capture.jsonl",
            "portwitness synthesize c1.synthesis.yaml | portwitness decode - --messages");
        command.SetAction(async (parsed, cancellation) =>
        {
            InputFile input = InputFile.From(parsed.GetRequiredValue(script), terminal);
            SynthesizeRequest request = new() { File = input.Name, Text = await TextInput.ReadAsync(input, cancellation) };
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using AsyncServerStreamingCall<SynthesizeResponse> call =
                service.Client.Synthesize(request, cancellationToken: cancellation);
            return await WriteAsync(call.ResponseStream, parsed.GetValue(output), terminal, cancellation);
        });
        return command;
    }

    private static async Task<int> WriteAsync(
        IAsyncStreamReader<SynthesizeResponse> responses, string? path, Terminal terminal, CancellationToken cancellation)
    {
        AtomicFile? file = null;
        try
        {
            while (await responses.MoveNext(cancellation))
            {
                if (responses.Current.PartCase == SynthesizeResponse.PartOneofCase.Faults)
                {
                    foreach (Fault fault in responses.Current.Faults.Faults)
                    {
                        terminal.Say(FaultText.Of(fault));
                    }

                    return ExitCode.Unusable;
                }

                TextWriter writer = path is null ? terminal.Output : (file ??= AtomicFile.Create(path)).Writer;
                await writer.WriteAsync(Encoding.UTF8.GetString(responses.Current.Data.Span));
            }

            file?.Commit();
            return ExitCode.Clean;
        }
        finally
        {
            file?.Dispose();
        }
    }
}
