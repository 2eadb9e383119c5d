using System.CommandLine;
using System.Globalization;
using Portwitness.Cli.Batches;
using Portwitness.Cli.Connection;

namespace Portwitness.Cli.Commands;

/// <summary>batch: many products.</summary>
internal static class BatchCommand
{
    private const int MostAtOnce = 64;

    public static Command Create(Terminal terminal)
    {
        Argument<string[]> folders = new Argument<string[]>("FOLDER")
        {
            Description = "folders whose subfolders each hold a product.yaml; a folder with a product.yaml of its own is one product",
            Arity = ArgumentArity.OneOrMore,
        }.RefuseOptions();
        Option<int> parallel = new("--parallel")
        {
            Description = string.Create(CultureInfo.InvariantCulture, $"products checked at the same time, 1 to {MostAtOnce}"),
            DefaultValueFactory = _ => Math.Min(Environment.ProcessorCount, MostAtOnce),
            HelpName = "COUNT",
        };
        parallel.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 1 or > MostAtOnce)
            {
                result.AddError($"--parallel takes 1 to {MostAtOnce}.");
            }
        });
        Option<bool> resume = new("--resume")
        {
            Description = "go on with the batch whose reports are in --output: products that are done, and whose files are the same, are\nnot repeated",
        };
        Option<string> since = new("--since")
        {
            Description = "folder of the reports of an earlier batch: products whose files have the same content since are not checked\nagain; their reports stay there",
            HelpName = "DIR",
        };
        CommonOptions common = new();
        common.Output.Description = "folder for one report a product, made when it is missing; each appears whole or not at all";
        common.Output.HelpName = "DIR";
        Command command = new(
            "batch",
            "Check many products. One that cannot be read does not stop the others. Progress goes to standard error; the\n"
            + "summary, or with --format json one report a line, to standard output.")
        {
            folders, parallel, resume, since,
        };
        common.AddTo(command, edition: true);
        command.Show(
            "portwitness batch chargers",
            "portwitness batch chargers power-banks --output reports --format json",
            "portwitness batch chargers --format json > reports.jsonl",
            "portwitness batch chargers --output reports --resume",
            "portwitness batch chargers --output tuesday --since monday");
        command.Validators.Add(result =>
        {
            if (result.GetValue(resume) && result.GetValue(common.Output) is null)
            {
                result.AddError("--resume needs --output: the folder of reports says what is done.");
            }
        });
        command.SetAction(async (parsed, cancellation) =>
        {
            IReadOnlyList<string> products = BatchProducts.Find(parsed.GetRequiredValue(folders));
            string? directory = parsed.GetValue(common.Output);
            using BatchJournal? journal = directory is null ? null : BatchJournal.Open(directory, parsed.GetValue(resume));
            IReadOnlyDictionary<string, BatchEntry> before = Before(journal, parsed.GetValue(since));
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            BatchRun run = new(terminal, common, parsed, service.Client, before, journal);
            return await run.RunAsync(products, parsed.GetValue(parallel), cancellation);
        });
        return command;
    }

    // What this folder has comes before what another one has.
    private static Dictionary<string, BatchEntry> Before(BatchJournal? journal, string? since)
    {
        Dictionary<string, BatchEntry> before = since is null ? []
            : BatchJournal.Read(since).ToDictionary(entry => entry.Key, entry => entry.Value with { Report = "" });
        foreach ((string product, BatchEntry entry) in journal?.Done ?? [])
        {
            before[product] = entry;
        }

        return before;
    }
}
