using System.CommandLine;
using Portwitness.Captures;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Json;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>Decodes input after input; one that cannot be used does not stop the others.</summary>
internal sealed class DecodeRun(Terminal terminal, CommonOptions common, ParseResult parsed, bool listMessages, long explain)
{
    private bool _anyText;

    public async Task<int> RunAsync(CaptureSource[] inputs, CancellationToken cancellation)
    {
        await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
        using ReportOutput output = new(terminal, common, parsed, single: inputs.Length == 1 && !listMessages);
        int exitCode = ExitCode.Clean;
        for (int index = 0; index < inputs.Length; index++)
        {
            int one = await RunOneAsync(service, inputs[index], output, alone: inputs.Length == 1, cancellation);
            exitCode = Math.Max(exitCode, one);
        }

        output.Commit();
        return exitCode;
    }

    private async Task<int> RunOneAsync(
        ServiceConnection service, CaptureSource source, ReportOutput output, bool alone, CancellationToken cancellation)
    {
        InputFile input = source.Capture;
        DecodeOptions options = new()
        {
            File = input.Name,
            Edition = common.EditionFrom(parsed),
            Messages = listMessages,
            Explain = explain,
            Rules = common.RulesFrom(parsed),
        };
        JsonReport.StreamedCapture json = output.BeginJsonCapture();
        bool headed = false;
        try
        {
            DecodedCapture capture = await DecodeDialogue.RunAsync(
                service.Client, source, options,
                messages =>
                {
                    terminal.StopWhenGone();
                    if (output.Json)
                    {
                        json.Add(messages);
                    }
                    else
                    {
                        if (!headed)
                        {
                            SetApart(output);
                            MessageText.WriteHeading(output.Writer, input.Name, output.Style);
                            headed = true;
                        }

                        MessageText.Write(output.Writer, messages);
                    }
                },
                cancellation);
            return Write(capture, json, output);
        }
        catch (CommandFailure failure) when (!alone && !json.HasBegun && failure.ExitCode == ExitCode.Unusable)
        {
            terminal.Say(failure.Message);
            if (output.Json)
            {
                // Line by line, the output keeps to the order of the inputs.
                json.End(new DecodedCapture
                {
                    File = input.Name,
                    Faults = { new Fault { File = input.Name, Code = "file-missing", Detail = failure.Message } },
                });
            }

            return failure.ExitCode;
        }
    }

    // A blank line between what is printed, none before the first.
    private void SetApart(ReportOutput output)
    {
        if (_anyText)
        {
            output.Writer.WriteLine();
        }

        _anyText = true;
    }

    // A member of a header that means nothing is noted with the faults, and leaves out no record.
    private static bool IsFault(Fault fault) => !FaultCodes.IsNote(fault.Code);

    private int Write(DecodedCapture capture, JsonReport.StreamedCapture json, ReportOutput output)
    {
        bool unusable = capture.Format.Length == 0 || (capture.MessageCount == 0 && capture.Faults.Any(IsFault));
        if (unusable)
        {
            foreach (Fault fault in capture.Faults)
            {
                terminal.Say(FaultListText.Of(fault));
            }
        }

        if (explain > 0 && !unusable && capture.Explanation is null)
        {
            terminal.Say($"{capture.File}: there is no message {explain} to explain; the capture has {capture.MessageCount}.");
            unusable = true;
        }

        if (output.Json)
        {
            json.End(capture);
        }
        else if (!unusable)
        {
            SetApart(output);
            CaptureText.Write(output.Writer, capture, output.Style, withTimeline: !listMessages);
        }

        return unusable ? ExitCode.Unusable : common.ExitCodeFor(parsed, capture.Findings);
    }
}
