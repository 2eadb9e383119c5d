using System.CommandLine;
using System.Globalization;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>submissions: what became of what was submitted.</summary>
internal static class SubmissionsCommand
{
    private static readonly string[] States = ["queued", "done", "parked"];

    public static Command Create(Terminal terminal)
    {
        Option<string> state = new Option<string>("--state")
        {
            Description = "queued: waits or is being worked on; done: its report is kept; parked: set aside after several tries, with its problem",
            HelpName = string.Join('|', States),
        }.AcceptOnlyFromAmong(States);
        Option<int> most = NumberOption.Create(
            "--most", string.Create(CultureInfo.InvariantCulture, $"submissions listed at most, 1 to {ReportQuery.Largest}"), ReportQuery.Usual, 1, ReportQuery.Largest);
        CommonOptions common = new();
        Command command = new("submissions", "List what was submitted to a service, the newest first.") { state, most };
        common.AddOutputTo(command);
        NeedServer(command, common);
        command.Add(RetryCommand(terminal));
        command.Show(
            "portwitness submissions --server http://127.0.0.1:5000 --state parked",
            "portwitness submissions retry 5b3c...e1 --server http://127.0.0.1:5000");
        command.SetAction(async (parsed, cancellation) =>
        {
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            ListSubmissionsResponse found = await service.Client.ListSubmissionsAsync(
                new ListSubmissionsRequest
                {
                    PageSize = parsed.GetValue(most),
                    State = parsed.GetValue(state) is { } word ? Enum.Parse<SubmissionState>(word, ignoreCase: true) : SubmissionState.Unspecified,
                },
                cancellationToken: cancellation);
            using ReportOutput output = new(terminal, common, parsed, single: true);
            if (output.Json)
            {
                output.WriteJson(found);
            }
            else
            {
                SubmissionText.Write(output.Writer, found);
            }

            output.Commit();
            return ExitCode.Clean;
        });
        return command;
    }

    private static Command RetryCommand(Terminal terminal)
    {
        Argument<string[]> keys = new("KEY") { Description = "keys of submissions, as the list has them", Arity = ArgumentArity.OneOrMore };
        CommonOptions common = new();
        Command command = new("retry", "Put submissions that were set aside into the queue again; the token needs the role admin.") { keys };
        common.AddOutputTo(command);
        NeedServer(command, common);
        command.SetAction(async (parsed, cancellation) =>
        {
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using ReportOutput output = new(terminal, common, parsed, single: false);
            foreach (string key in parsed.GetRequiredValue(keys))
            {
                Submission submission = await service.Client.RetrySubmissionAsync(new RetrySubmissionRequest { Key = key }, cancellationToken: cancellation);
                if (output.Json)
                {
                    output.WriteJson(submission);
                }
                else
                {
                    output.Writer.WriteLine($"{key}: {SubmissionText.Word(submission)}");
                }
            }

            output.Commit();
            return ExitCode.Clean;
        });
        return command;
    }

    private static void NeedServer(Command command, CommonOptions common) => command.Validators.Add(result =>
    {
        if (result.GetValue(common.Server) is null)
        {
            result.AddError($"{command.Name} needs --server: submissions are kept by a service.");
        }
    });
}
