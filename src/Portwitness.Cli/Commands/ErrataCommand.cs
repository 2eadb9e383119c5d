using System.CommandLine;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Comparing;
using Portwitness.Reports.Formats;

namespace Portwitness.Cli.Commands;

/// <summary>errata: which published statements change between two reports of one product, and why.</summary>
internal static class ErrataCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> before = new Argument<string>("OLD") { Description = "the published report in JSON, or the product's folder as it was" }.RefuseOptions();
        Argument<string> after = new Argument<string>("NEW") { Description = "the new report in JSON, or the product's folder" }.RefuseOptions();
        LabelOptions label = new();
        CommonOptions common = new([ReportFormat.Plain.Name, ReportOutput.MarkdownName, ReportFormat.Json.Name]);
        common.Format.Description = "text or markdown to publish, json for scripts";
        Command command = new(
            "errata",
            "Hold a published report against a new one of the same product: which printed statements, findings, claims and measured\n"
            + "values change, what each rested on then and now, and why: files that are new, gone or others, a line of the label that\n"
            + "reads otherwise, other rules, another version of the tool. The exit code is 1 when anything changes.")
        {
            before, after, label.Photo.Languages,
        };
        common.AddOutputTo(command);
        command.Add(common.Edition);
        command.Show("portwitness errata published/th-65.json chargers/th-65", "portwitness errata published/th-65.json th-65.json --format markdown --output errata.md");
        command.SetAction(async (parsed, cancellation) =>
        {
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            JudgedProduct products = new(service, common, parsed, label.Photo.From(parsed), terminal);
            Errata errata = ErrataReader.Read(
                await products.ReportAsync(parsed.GetRequiredValue(before), null, cancellation), await products.ReportAsync(parsed.GetRequiredValue(after), null, cancellation));
            using ReportOutput output = new(terminal, common, parsed, single: true);
            output.Write(errata);
            return errata.Entries.Count > 0 ? ExitCode.Findings : ExitCode.Clean;
        });
        return command;
    }
}
