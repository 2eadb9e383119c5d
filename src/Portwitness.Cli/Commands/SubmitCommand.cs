using System.CommandLine;
using Portwitness.Cli.Batches;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Commands;

/// <summary>submit: products for whichever node of a service has time.</summary>
internal static class SubmitCommand
{
    private const int Usual = 4;
    private const int Most = 64;
    private const int UsualWait = 86_400;
    private const int LongestWait = 2_592_000;

    public static Command Create(Terminal terminal)
    {
        Argument<string[]> paths = new Argument<string[]>("PATH")
        {
            Description = "product folders, folders of them, or with --label captures and folders of captures", Arity = ArgumentArity.OneOrMore,
        }.RefuseOptions();
        LabelOptions label = new();
        Option<bool> wait = new("--wait") { Description = "wait for the reports; the exit code is then that of check" };
        Option<int> longest = NumberOption.Create(
            "--wait-limit", "with --wait, how long each report is waited for; then the exit code is 3, and what was accepted is kept.\n0 waits for ever",
            UsualWait, 0, LongestWait, "SECONDS");
        Option<int> parallel = NumberOption.Create("--parallel", "products that are sent at once", Usual, 1, Most);
        CommonOptions common = new();
        Command command = new(
            "submit",
            "Hand products over to a service, which keeps them until one of its nodes has judged them. What was accepted\n"
            + "survives any crash; sending the same again changes nothing, so an interrupted submit is simply run again.")
        {
            paths, label.Text, label.File, label.Photo.Languages, wait, longest, parallel,
        };
        label.AddValidatorTo(command);
        common.AddTo(command, edition: true);
        command.Add(common.Guard);
        command.Show(
            "portwitness submit chargers --server https://bench.example:7443",
            "portwitness submit chargers/th-65 --server unix:/run/portwitness/socket --wait",
            "portwitness submit night/*.pcapng --label @label.txt --server http://127.0.0.1:5000",
            "portwitness submissions --server http://127.0.0.1:5000 --state parked");
        command.Validators.Add(result =>
        {
            if (result.GetValue(common.Server) is null)
            {
                result.AddError("submit needs --server: without one nobody would be left to do the work. 'portwitness batch' judges here and now.");
            }
        });
        command.SetAction(async (parsed, cancellation) =>
        {
            string? text = await label.ReadAsync(parsed, terminal, cancellation);
            IReadOnlyList<BatchProduct> products = text is null
                ? BatchProducts.Find(parsed.GetRequiredValue(paths)) : BatchProducts.FindCaptures(parsed.GetRequiredValue(paths));
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation, onRetry: terminal.Say, waits: true);
            using ReportOutput output = new(terminal, common, parsed, single: false);
            SubmitRun run = new(terminal, common, parsed, service, output)
            {
                Label = text, Photos = label.Photo.From(parsed), Wait = parsed.GetValue(wait), LongestWait = parsed.GetValue(longest) is > 0 and var seconds ? TimeSpan.FromSeconds(seconds) : null,
            };
            int exitCode = await run.RunAsync(products, parsed.GetValue(parallel), cancellation);
            output.Commit();
            return exitCode;
        });
        return command;
    }
}
