using Portwitness.Cli.Calls;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Cli.Watching;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>watch of what comes in pieces: chargers at a port of this computer, files of a folder. Each is decoded when it is there.</summary>
internal sealed class WatchRun(
    Terminal terminal, Witness.WitnessClient client, DecodeOptions options, ReportOutput output, Func<DecodedCapture, int> exitCodeOf)
{
    private int _exitCode;
    private int _attaches;

    /// <summary>Follows a port until it is stopped.</summary>
    public async Task<int> OfPortAsync(string path, TimeSpan? idle, string? keepIn, CancellationToken stop)
    {
        using KeptCapture? keep = keepIn is null ? null : KeptCapture.Create(keepIn, TimeProvider.System.GetUtcNow());
        PortWatch watch = new(new PartnerFolder(path), idle, keep, TimeProvider.System);
        await watch.RunAsync(
            async shown =>
            {
                _attaches++;
                await DecodeAsync(new InputFile($"{path}, list {_attaches}", () => new MemoryStream(shown)), stop);
            },
            () => terminal.Say($"{path}: nothing is attached any more."), stop);
        return _exitCode;
    }

    /// <summary>Follows a folder until it is stopped.</summary>
    public async Task<int> OfFolderAsync(string path, TimeSpan? idle, CancellationToken stop)
    {
        BenchFolder folder = new(path, idle, TimeProvider.System);
        await folder.RunAsync(file => DecodeAsync(InputFile.From(file, terminal), stop), stop);
        return _exitCode;
    }

    private async Task DecodeAsync(InputFile input, CancellationToken stop)
    {
        DecodeOptions one = options.Clone();
        one.File = input.Name;
        try
        {
            DecodedCapture capture = await DecodeDialogue.RunAsync(
                client, new CaptureSource(input, options.Read, null, Progress.None), one,
                messages => MessageText.Write(output.Writer, messages), stop);
            foreach (Fault fault in capture.Format.Length == 0 ? capture.Faults : [])
            {
                terminal.Say(FaultListText.Of(fault));
            }

            if (capture.Format.Length > 0)
            {
                WatchCommand.Write(capture, output);
            }

            output.Writer.Flush();
            _exitCode = Math.Max(_exitCode, exitCodeOf(capture));
        }
        catch (CommandFailure failure) when (failure.ExitCode == ExitCode.Unusable)
        {
            // One file that cannot be read stops no bench.
            terminal.Say(failure.Message);
            _exitCode = Math.Max(_exitCode, failure.ExitCode);
        }

        terminal.StopWhenGone();
    }
}
