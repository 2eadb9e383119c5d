using System.CommandLine;
using System.Globalization;
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
        CommonOptions common = new();
        common.Output.Description = "folder for one report a product, made when it is missing; each appears whole or not at all";
        common.Output.HelpName = "DIR";
        Command command = new(
            "batch",
            "Check many products. One that cannot be read does not stop the others. Progress goes to standard error; the\n"
            + "summary, or with --format json one report a line, to standard output.")
        {
            folders, parallel,
        };
        common.AddTo(command, edition: true);
        command.Show(
            "portwitness batch chargers",
            "portwitness batch chargers power-banks --output reports --format json",
            "portwitness batch chargers --format json > reports.jsonl");
        command.SetAction(async (parsed, cancellation) =>
        {
            IReadOnlyList<string> products = BatchProducts.Find(parsed.GetRequiredValue(folders));
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            BatchRun run = new(terminal, common, parsed, service.Client);
            return await run.RunAsync(products, parsed.GetValue(parallel), cancellation);
        });
        return command;
    }
}
