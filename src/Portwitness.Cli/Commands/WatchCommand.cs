using System.CommandLine;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>watch: a capture while it is recorded.</summary>
internal static class WatchCommand
{
    private const int LongestIdle = 86_400;
    private static readonly TimeSpan TimeToEnd = TimeSpan.FromSeconds(4);

    public static Command Create(Terminal terminal)
    {
        Argument<string> file = new Argument<string>("FILE")
        {
            Description = "a capture that is being written, also one that appears later; - is standard input",
        }.RefuseOptions();
        Option<bool> messages = new("--messages") { Description = "list every message as it comes" };
        Option<int> idle = NumberOption.Create("--idle", "end when nothing was added for so long; 0 waits for ever", 0, 0, LongestIdle, "SECONDS");
        ReadingOptions reading = new();
        CommonOptions common = new();
        Command command = new(
            "watch",
            "Follow a capture while it is recorded and print what is found as it is found. Ctrl-C, the end of standard input, --idle\n"
            + "or the file's removal ends it, and prints the whole result as decode does. A file that takes the place of the one that was\n"
            + "watched, or the same cut short, is the next capture.")
        {
            file, messages, idle,
        };
        reading.AddTo(command);
        common.AddTo(command, edition: true);
        command.Validators.Add(result =>
        {
            if (result.GetValue(reading.Measurements) is not null)
            {
                result.AddError("watch takes no --measurements: they have to be in the capture.");
            }
        });
        command.Show(
            "portwitness watch c1.capture.jsonl",
            "bench-recorder | portwitness watch - --server http://127.0.0.1:5000",
            "portwitness watch c1.capture.jsonl --idle 30 --format json");
        command.SetAction(async (parsed, cancellation) =>
        {
            string path = parsed.GetRequiredValue(file);
            DecodeOptions options = new()
            {
                File = path == InputFile.StandardInput ? "standard input" : path, Edition = common.EditionFrom(parsed), Messages = parsed.GetValue(messages),
                Rules = common.RulesFrom(parsed), Read = await reading.ReadAsync(parsed, terminal, cancellation),
            };
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using ReportOutput output = new(terminal, common, parsed, single: false);
            using GrowingFile growing = new(path, parsed.GetValue(idle) is > 0 and var seconds ? TimeSpan.FromSeconds(seconds) : null, TimeProvider.System);

            // Ctrl-C ends the reading first; the result still comes.
            using CancellationTokenSource give = new();
            await using CancellationTokenRegistration stopping = cancellation.Register(() => give.CancelAfter(TimeToEnd));
            for (int exitCode = ExitCode.Clean; ; growing.BeginAnew())
            {
                DecodedCapture capture = await WatchDialogue.RunAsync(
                    service.Client, options,
                    buffer => path == InputFile.StandardInput ? ReadAsync(terminal.Input, buffer, cancellation) : growing.ReadAsync(buffer, cancellation),
                    response => Tell(response, output, terminal), give.Token);
                Write(capture, output);
                exitCode = Math.Max(exitCode, capture.Format.Length == 0 ? ExitCode.Unusable : common.ExitCodeFor(parsed, capture.Findings));
                if (growing.Successor is not { } what)
                {
                    output.Commit();
                    return exitCode;
                }

                // Two recordings are two captures: what the first one left open says nothing about the second.
                terminal.Say($"{path}: {what}; what is there now is watched as a new capture.");
            }
        });
        return command;
    }

    // What is found is worth knowing now, not when a buffer is full.
    private static void Tell(WatchResponse response, ReportOutput output, Terminal terminal)
    {
        if (output.Json)
        {
            output.WriteJson(response);
        }
        else if (response.Finding is { } finding)
        {
            WatchText.Write(output.Writer, finding, output.Style);
        }
        else
        {
            MessageText.Write(output.Writer, response.Messages);
        }

        output.Writer.Flush();
        terminal.StopWhenGone();
    }

    private static void Write(DecodedCapture capture, ReportOutput output)
    {
        if (output.Json)
        {
            output.WriteJson(new WatchResponse { Capture = capture });
            return;
        }

        output.Writer.WriteLine();
        CaptureText.Write(output.Writer, capture, output.Style);
    }

    private static async Task<int> ReadAsync(Stream input, Memory<byte> buffer, CancellationToken stop)
    {
        try
        {
            // Standard input cannot be cancelled; waiting for it can.
            return await input.ReadAsync(buffer, CancellationToken.None).AsTask().WaitAsync(stop);
        }
        catch (OperationCanceledException)
        {
            return 0;
        }
        catch (IOException exception)
        {
            throw new CommandFailure($"standard input: reading failed: {exception.Message}");
        }
    }
}
