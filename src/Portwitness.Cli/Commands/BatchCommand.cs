using System.CommandLine;
using System.Globalization;
using Portwitness.Cli.Batches;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Reports.Formats;

namespace Portwitness.Cli.Commands;

/// <summary>batch: many products.</summary>
internal static class BatchCommand
{
    private const int MaxAtOnce = 64;

    public static Command Create(Terminal terminal)
    {
        Argument<string[]> folders = new Argument<string[]>("FOLDER")
        {
            Description = "folders whose subfolders each hold a product.yaml; a folder with a product.yaml of its own is one product. With a label:\ncaptures, or folders of them",
            Arity = ArgumentArity.OneOrMore,
        }.RefuseOptions();
        Option<int> parallel = new("--parallel")
        {
            Description = string.Create(CultureInfo.InvariantCulture, $"products checked at the same time, 1 to {MaxAtOnce}"),
            DefaultValueFactory = _ => Math.Min(Environment.ProcessorCount, MaxAtOnce),
            HelpName = "COUNT",
        };
        parallel.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 1 or > MaxAtOnce)
            {
                result.AddError($"--parallel takes 1 to {MaxAtOnce}.");
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
        LotOptions lot = new();
        LabelOptions label = new();
        StoreOption store = new();
        label.Text.Description = "the text of a label, or @FILE, that every capture is checked against";
        CommonOptions common = new(ReportFormat.Names, several: true);
        common.Format.Description = "what reports are written as; several with commas between. text, json, markdown and html are a file for each\n"
            + "product, html with an index; csv, junit and sarif hold the whole batch. All but text and json need --output";
        common.Output.Description = "folder for one report a product, made when it is missing; each appears whole or not at all";
        common.Output.HelpName = "DIR";
        Command command = new(
            "batch",
            "Check many products. One that cannot be read does not stop the others. Progress goes to standard error; the\n"
            + "summary, or with --format json one report a line, to standard output.")
        {
            folders, label.Text, label.File, label.Photo.Languages, parallel, resume, since, lot.Units, lot.Limit,
        };
        lot.AddValidatorTo(command);
        label.AddValidatorTo(command);
        common.AddTo(command, edition: true);
        command.Add(common.Guard);
        store.AddTo(command, common);
        command.Show(
            "portwitness batch chargers",
            "portwitness batch chargers power-banks --output reports --format json",
            "portwitness batch chargers --format json > reports.jsonl",
            "portwitness batch chargers --output reports --resume",
            "portwitness batch chargers --output tuesday --since monday",
            "portwitness batch chargers --output reports --format html,junit",
            "portwitness batch samples --lot 200 --aql 1.0",
            "portwitness batch captures/*.pcapng --label @label.txt --format json > reports.jsonl");
        command.Validators.Add(result =>
        {
            if (result.GetValue(resume) && result.GetValue(common.Output) is null)
            {
                result.AddError("--resume needs --output: the folder of reports says what is done.");
            }

            if (result.GetValue(common.Output) is null && result.GetValue(common.Format) is { } format && format != ReportFormat.Plain.Name && format != ReportFormat.Json.Name)
            {
                result.AddError($"--format {format} needs --output: it writes more than one stream.");
            }
        });
        command.SetAction(async (parsed, cancellation) =>
        {
            string? text = await label.ReadAsync(parsed, terminal, cancellation);
            IReadOnlyList<BatchProduct> products = text is null
                ? BatchProducts.Find(parsed.GetRequiredValue(folders)) : BatchProducts.FindCaptures(parsed.GetRequiredValue(folders));
            string? directory = parsed.GetValue(common.Output);
            Dictionary<string, BatchEntry> before = Before(parsed.GetValue(since));
            using BatchJournal? journal = directory is null ? null : BatchJournal.Open(directory, parsed.GetValue(resume));
            foreach ((string product, BatchEntry entry) in journal?.Done ?? [])
            {
                // What this folder has comes before what another one has.
                before[product] = entry;
            }

            await using ServiceConnection service = await ServiceConnection.OpenAsync(
                common.ServerFrom(parsed), cancellation, await store.OpenAsync(parsed, cancellation), onRetry: terminal.Say);
            BatchRun run = new(terminal, common, parsed, service, before, journal) { PhotoLanguages = label.Photo.From(parsed).Languages, Lot = lot.From(parsed) };
            return await run.RunAsync(products, text, parsed.GetValue(parallel), cancellation);
        });
        return command;
    }

    private static Dictionary<string, BatchEntry> Before(string? since) => since is null ? []
        : BatchJournal.Read(since).ToDictionary(static entry => entry.Key, entry => entry.Value.Report.Length == 0 ? entry.Value
            : entry.Value with { Report = "", EarlierReport = Path.GetFullPath(Path.Combine(since, entry.Value.Report)) });
}
