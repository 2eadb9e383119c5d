using System.CommandLine;
using Portwitness.Cli.Calls;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Formats;
using Portwitness.Reports.Planning;

namespace Portwitness.Cli.Commands;

/// <summary>plan: what is to be captured and measured of a product before it is opened.</summary>
internal static class PlanCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> product = new Argument<string>("PRODUCT")
        {
            Description = "a product's folder or product.yaml, of which the label is enough, or an earlier report in JSON",
        }.RefuseOptions();
        LabelOptions label = new();
        CommonOptions common = new([ReportFormat.Plain.Name, ReportOutput.MarkdownName, ReportFormat.Json.Name]);
        common.Format.Description = "text or markdown for people, json for scripts";
        Command command = new(
            "plan",
            "List what is to be captured and measured of a product before it is opened, in order, from what its label prints: each\n"
            + "port alone and under load, combinations in both orders, an hour at full power, charges and a discharge, with the hours\n"
            + "that it takes. What the product's files show is ticked off.")
        {
            product, label.Photo.Languages,
        };
        common.AddOutputTo(command);
        command.Show("portwitness plan chargers/th-65", "portwitness plan chargers/th-65 --format markdown --output th-65-plan.md");
        command.SetAction(async (parsed, cancellation) =>
        {
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            JudgedProduct products = new(service, common, parsed, label.Photo.From(parsed), terminal);
            BenchPlan plan = BenchPlanner.Of(await products.ReportAsync(parsed.GetRequiredValue(product), null, cancellation));
            using ReportOutput output = new(terminal, common, parsed, single: true);
            output.Write(plan);
            return ExitCode.Clean;
        });
        return command;
    }
}
