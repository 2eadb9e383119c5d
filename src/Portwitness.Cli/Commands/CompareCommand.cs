using System.CommandLine;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Comparing;

namespace Portwitness.Cli.Commands;

/// <summary>compare: two samples, firmware versions, or reports.</summary>
internal static class CompareCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> before = new Argument<string>("BEFORE")
        {
            Description = "a product's folder or product.yaml, a capture, or an earlier report in JSON",
        }.RefuseOptions();
        Argument<string> after = new Argument<string>("AFTER") { Description = "the same, to be held against it" }.RefuseOptions();
        LabelOptions label = new();
        CommonOptions common = new();
        Command command = new(
            "compare",
            "Compare two samples, two firmware versions, or an earlier report with a later one: what was added, is gone or has\n"
            + "changed. Times, messages and file names do not count. What only one of them captured is not compared, and said.\n"
            + "The exit code is 1 when anything differs.")
        {
            before, after, label.Text, label.File, label.Photo.Languages,
        };
        label.AddValidatorTo(command);
        common.AddOutputTo(command);
        command.Add(common.Edition);
        command.Show(
            "portwitness compare chargers/th-65-sample-1 chargers/th-65-sample-2",
            "portwitness compare reports/th-65.json chargers/th-65",
            "portwitness compare c1-monday.pcapng c1-tuesday.pcapng --label @label.txt");
        command.SetAction(async (parsed, cancellation) =>
        {
            string? text = await label.ReadAsync(parsed, terminal, cancellation);
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            JudgedProduct products = new(service, common, parsed, label.Photo.From(parsed), terminal);
            ReportComparison comparison = ReportComparer.Compare(
                await products.ReportAsync(parsed.GetRequiredValue(before), text, cancellation), await products.ReportAsync(parsed.GetRequiredValue(after), text, cancellation));
            using ReportOutput output = new(terminal, common, parsed, single: true);
            output.Write(comparison);
            return comparison.Differences.Count > 0 ? ExitCode.Findings : ExitCode.Clean;
        });
        return command;
    }
}
