using System.CommandLine;
using System.Globalization;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.History;
using Portwitness.History.Stores;

namespace Portwitness.Cli.Commands;

/// <summary>history prune: deletes old reports.</summary>
internal static class HistoryPruneCommand
{
    public static Command Create(Terminal terminal)
    {
        Option<TimeSpan?> age = AgeOption.Create("--older-than", "reports whose input came for the last time longer ago than this, 400d or 36h");
        age.Required = true;
        Option<bool> keepFailing = new("--keep-failing") { Description = "keep reports of products that fail" };
        Option<string> product = new("--product") { Description = "only those with this in the product's name", HelpName = "NAME" };
        Option<bool> dryRun = new("--dry-run") { Description = "only say how many they are" };
        StoreOption store = new();
        store.Where.Description = "the store; without it the file in the user's state folder, as for serve";
        Command command = new(
            "prune",
            "Delete old reports with their submissions, and submissions that were set aside as long ago. A service may go on meanwhile.\n"
            + "What was deleted and is submitted again is judged again. 'serve --retain' does this by itself.")
        {
            age, keepFailing, product, dryRun, store.Where,
        };
        command.Show(
            "portwitness history prune --older-than 400d --dry-run --store bench.db",
            "portwitness history prune --older-than 90d --keep-failing --product TH-65 --store bench.db");
        command.SetAction(async (parsed, cancellation) =>
        {
            string place = parsed.GetValue(store.Where) ?? StoreOption.Usual;
            if (!ReportStores.IsServer(place) && !File.Exists(place) && !Directory.Exists(place))
            {
                throw new CommandFailure($"{place}: no reports are kept there; name the store.");
            }

            await using IReportStore kept = await StoreOption.OpenAsync(place, cancellation);
            PruneQuery query = new()
            {
                Before = DateTimeOffset.UtcNow - parsed.GetValue(age)!.Value, KeepFailing = parsed.GetValue(keepFailing), Product = parsed.GetValue(product) ?? "",
            };
            bool isDry = parsed.GetValue(dryRun);
            try
            {
                PrunedRows rows = isDry ? await kept.CountPrunableAsync(query, cancellation) : await kept.PruneAsync(query, cancellation);
                await terminal.Output.WriteLineAsync(string.Create(
                    CultureInfo.InvariantCulture, $"{(isDry ? "would delete" : "deleted")} {rows.Reports} reports and {rows.Submissions} submissions."));
                return ExitCode.Clean;
            }
            catch (StoreException exception)
            {
                throw new CommandFailure(exception.Message, exception.IsUnreachable ? ExitCode.NoService : ExitCode.Unusable);
            }
        });
        return command;
    }
}
