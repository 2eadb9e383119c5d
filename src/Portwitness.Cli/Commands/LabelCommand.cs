using System.CommandLine;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Files;
using Portwitness.Cli.Options;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>label: how a label is read.</summary>
internal static class LabelCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> label = new Argument<string>("LABEL")
        {
            Description = "the printed text; @FILE or the path of a file reads it from there, - from standard input; the file may be a photo of the label",
        }.RefuseOptions();
        Option<string> settle = new("--settle")
        {
            Description = "ask at the terminal, place by place, how to read what is unread or doubtful, and write the answers into this product file",
            HelpName = "PRODUCT.YAML",
        };
        PhotoOption photo = new();
        CommonOptions common = new();
        Command command = new("label", "Show how a printed label is read, what of it is not, and what is wrong with it on its own; exit code 1 for either.")
        {
            label,
            settle,
            photo.Languages,
        };
        common.AddTo(command, edition: false);
        command.Show(
            "portwitness label \"USB-C1: 5V⎓3A 9V⎓3A 20V⎓3.25A (65W Max)\"",
            "portwitness label label.txt",
            "portwitness label @label.txt --format json",
            "portwitness label label.jpg --photo-languages eng+deu",
            "portwitness label label.txt --settle product.yaml");
        command.SetAction(async (parsed, cancellation) =>
        {
            string text = await ReadAsync(parsed.GetRequiredValue(label), photo.From(parsed), terminal, cancellation);
            if (string.IsNullOrWhiteSpace(text))
            {
                throw new CommandFailure("the label is empty; give the words that are printed on the product.");
            }

            string? product = parsed.GetValue(settle);
            if (product is not null)
            {
                LabelSettleRun.CheckTerminal(terminal, parsed.GetRequiredValue(label), product);
            }

            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using ReportOutput output = new(terminal, common, parsed, single: true);
            ReadLabelResponse response = product is null
                ? await service.Client.ReadLabelAsync(new ReadLabelRequest { Text = text }, cancellationToken: cancellation)
                : await new LabelSettleRun(terminal, service.Client, text, product).RunAsync(cancellation);
            if (output.Json)
            {
                output.WriteJson(response.Label);
            }
            else
            {
                LabelText.Write(output.Writer, response.Label, output.Style);
            }

            output.Commit();

            // What is not read and could rate something is not clean: it may be what a mismatch is about.
            bool isUnread = (response.Label.UnlistedUnread > 0 || response.Label.Unread.Any(static span => span.MayRate))
                && parsed.GetRequiredValue(common.FailOnWord) is "mismatch" or "caution";
            return isUnread ? ExitCode.Findings : common.ExitCodeFor(parsed, response.Label.Findings);
        });
        return command;
    }

    private static async Task<string> ReadAsync(string given, PhotoReading photos, Terminal terminal, CancellationToken cancellation)
    {
        bool isFile = given == InputFile.StandardInput || File.Exists(given) || Directory.Exists(given) || LabelOptions.LooksLikePath(given);
        string? file = given.StartsWith('@') ? given[1..] : isFile ? given : null;
        return file is null ? given : await TextInput.ReadLabelAsync(InputFile.From(file, terminal), photos, cancellation);
    }
}
