using System.CommandLine;
using System.Text;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Cli.Starting;
using Portwitness.Product;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>new: a product file of what lies in a folder, or the schemas of files.</summary>
internal static class NewCommand
{
    private const string CaptureSchema = "capture.schema.json";

    public static Command Create(Terminal terminal)
    {
        Argument<string> folder = new Argument<string>("FOLDER")
        {
            Description = "the folder with captures, logs, a label's text; product.yaml is written there",
            Arity = ArgumentArity.ZeroOrOne,
        }.RefuseOptions();
        Option<string> schema = new Option<string>("--schema")
        {
            Description = "print the JSON Schema of product files, or of a line of captures, for editors",
            HelpName = "product|capture",
        }.AcceptOnlyFromAmong("product", "capture");
        Command command = new(
            "new",
            "Write a product.yaml from what lies in a folder: captures with their ports, from headers and names, logs, the label's text.\n"
            + "What nobody can know is asked for at a terminal, or left as a comment. Nothing is overwritten.")
        {
            folder, schema,
        };
        command.Validators.Add(result =>
        {
            if ((result.GetValue(folder) is null) == (result.GetValue(schema) is null))
            {
                result.AddError("new needs a folder, or --schema; one of them.");
            }
        });
        command.Show("portwitness new chargers/th-65", "portwitness new --schema product > chargers/th-65/product.schema.json");
        command.SetAction(async (parsed, cancellation) =>
        {
            if (parsed.GetValue(schema) is { } which)
            {
                await terminal.Output.WriteAsync((which == "product" ? ProductSchema.Text : SchemaOfCaptures()).AsMemory(), cancellation);
                return ExitCode.Clean;
            }

            string named = parsed.GetRequiredValue(folder);
            if (!Directory.Exists(named))
            {
                throw new CommandFailure($"{named}: there is no such folder.{FileNames.DidYouMean(named)}");
            }

            string path = Path.Combine(named, ProductFolder.ProductFileName);
            if (FileKinds.Of(path) != FileKind.Missing)
            {
                throw new CommandFailure($"{path}: is there already, and is left as it is.");
            }

            List<FoundFile> files = FolderSurvey.Of(named);
            using StreamReader answers = new(terminal.Input, Encoding.UTF8, leaveOpen: true);
            string name = Path.GetFileName(Path.GetFullPath(named).TrimEnd(Path.DirectorySeparatorChar));
            name = Ask("The product's name", name) ?? name;
            string text = ProductDraft.Of(name, files, file => file.Kind == FoundKind.Capture && file.LikelyPort is null
                ? Ask($"Which port is {VisibleText.Of(file.Name)} of (Enter: not known)", null)
                : file.LikelyPort);
            await WriteAsync(path, text, cancellation);
            terminal.Say($"{path} written: {Count(FoundKind.Capture)} captures, {Count(FoundKind.Log)} logs, {Count(FoundKind.Label)} labels. Look it through, then run 'portwitness check {named}'.");
            return ExitCode.Clean;

            int Count(FoundKind kind) => files.Count(file => file.Kind == kind);

            string? Ask(string question, string? usual)
            {
                if (!terminal.InputIsTerminal)
                {
                    return usual;
                }

                terminal.Error.Write($"{question}{(usual is null ? "" : $" (Enter: {VisibleText.Of(usual)})")}: ");
                return answers.ReadLine()?.Trim() is { Length: > 0 } answer ? answer : usual;
            }
        });
        return command;
    }

    private static async Task WriteAsync(string path, string text, CancellationToken cancellation)
    {
        try
        {
            await using FileStream file = new(path, FileMode.CreateNew, FileAccess.Write);
            await file.WriteAsync(Encoding.UTF8.GetBytes(text), cancellation);
        }
        catch (IOException) when (File.Exists(path))
        {
            throw new CommandFailure($"{path}: is there already, and is left as it is.");
        }
    }

    private static string SchemaOfCaptures()
    {
        using StreamReader reader = new(typeof(NewCommand).Assembly.GetManifestResourceStream(CaptureSchema)!, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
