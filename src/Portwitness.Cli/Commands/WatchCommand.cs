using System.CommandLine;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Cli.Watching;
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
            Description = "a capture that is being written, also one that appears later, or a pipe; - is standard input. Or a port of this computer\n"
                + "(/sys/class/typec/port0-partner), or a folder whose new files are taken as they appear",
        }.RefuseOptions();
        Option<bool> messages = new("--messages") { Description = "list every message as it comes" };
        Option<int> idle = NumberOption.Create("--idle", "end when nothing was added for so long; 0 waits for ever", 0, 0, LongestIdle, "SECONDS");
        Option<string> keep = new("--keep")
        {
            Description = "keep what is attached to a port of this computer as a capture in this new file",
            HelpName = "FILE",
        };
        ReadingOptions reading = new();
        CommonOptions common = new();
        Command command = new(
            "watch",
            "Follow a capture while it is recorded and print what is found as it is found. Ctrl-C, the end of standard input, --idle\n"
            + "or the file's removal ends it, and prints the whole result as decode does. A file that takes the place of the one that was\n"
            + "watched, or the same cut short, is the next capture. Each charger that is plugged into a watched port is a capture of its own.")
        {
            file, messages, idle, keep,
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
            "portwitness watch c1.capture.jsonl --idle 30 --format json",
            "portwitness watch /sys/class/typec/port0-partner --keep chargers.capture.jsonl",
            "portwitness watch bench/exports");
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
            TimeSpan? longest = parsed.GetValue(idle) is > 0 and var most ? TimeSpan.FromSeconds(most) : null;
            bool isPort = path != InputFile.StandardInput && PartnerFolder.Is(path);
            if (!isPort && parsed.GetValue(keep) is not null)
            {
                throw new CommandFailure($"--keep goes with a port of this computer, such as /sys/class/typec/port0-partner; {path} is none.");
            }

            Func<DecodedCapture, int> exitCodeOf = capture => capture.Format.Length == 0 ? ExitCode.Unusable : common.ExitCodeFor(parsed, capture.Findings);
            WatchRun run = new(terminal, service.Client, options, output, exitCodeOf);
            if (isPort || Directory.Exists(path))
            {
                int found = isPort ? await run.OfPortAsync(path, longest, parsed.GetValue(keep), cancellation) : await run.OfFolderAsync(path, longest, cancellation);
                output.Commit();
                return found;
            }

            using GrowingFile growing = new(path, longest, TimeProvider.System);

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
                exitCode = Math.Max(exitCode, exitCodeOf(capture));
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
        else if (response.Contract is { } contract)
        {
            WatchText.Write(output.Writer, contract);
        }
        else
        {
            MessageText.Write(output.Writer, response.Messages);
        }

        output.Writer.Flush();
        terminal.StopWhenGone();
    }

    internal static void Write(DecodedCapture capture, ReportOutput output)
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
