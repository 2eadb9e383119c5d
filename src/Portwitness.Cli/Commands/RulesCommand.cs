using System.CommandLine;
using Grpc.Core;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;
using Portwitness.Text;

namespace Portwitness.Cli.Commands;

/// <summary>rules: the catalogue, or one rule.</summary>
internal static class RulesCommand
{
    private static readonly string[] SeverityWords = ["violation", "mismatch", "caution", "note"];

    public static Command Create(Terminal terminal)
    {
        Argument<string> name = new Argument<string>("NAME")
        {
            Description = "one rule, as findings name it",
            Arity = ArgumentArity.ZeroOrOne,
        }.RefuseOptions();
        Option<string[]> severity = new Option<string[]>("--severity")
        {
            Description = "only rules whose worst is this; may be given several times",
            HelpName = "violation|mismatch|caution|note",
        }.AcceptOnlyFromAmong(SeverityWords);
        Option<string[]> category = new("--category")
        {
            Description = "only rules about this, as the list's column \"about\" says; may be given several times",
            HelpName = "CATEGORY",
        };
        CommonOptions common = new();
        common.Edition.Description = "only rules that can be broken in this edition: R2.0, R3.0, R3.1 or R3.2";
        Command command = new("rules", "List the rules, or explain one with its clause, its reason and an example.")
        {
            name, severity, category, common.Edition,
        };
        common.AddOutputTo(command);
        command.Validators.Add(result =>
        {
            if (!string.IsNullOrEmpty(result.GetValue(name))
                && (result.GetResult(severity) ?? result.GetResult(category) ?? result.GetResult(common.Edition)) is not null)
            {
                result.AddError("a rule's name goes without --severity, --category and --edition; they choose from the list.");
            }
        });
        command.Show(
            "portwitness rules",
            "portwitness rules voltage-offered-twice",
            "portwitness rules --severity violation --category capabilities --edition R3.1",
            "portwitness rules --format json");
        command.SetAction(async (parsed, cancellation) =>
        {
            ListRulesRequest request = new()
            {
                Name = parsed.GetValue(name) ?? "",
                Edition = common.EditionFrom(parsed),
                Categories = { parsed.GetValue(category) ?? [] },
                Severities = { (parsed.GetValue(severity) ?? []).Select(word => Enum.Parse<Severity>(word, ignoreCase: true)) },
            };
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using ReportOutput output = new(terminal, common, parsed, single: true);
            Write(output, request, await ListAsync(service.Client, request, cancellation));
            output.Commit();
            return ExitCode.Clean;
        });
        return command;
    }

    private static void Write(ReportOutput output, ListRulesRequest request, ListRulesResponse response)
    {
        if (output.Json)
        {
            output.WriteJson(request.Name.Length > 0 ? response.Rules[0] : response);
        }
        else if (request.Name.Length > 0)
        {
            RuleText.WriteOne(output.Writer, response.Rules[0], output.Style);
        }
        else
        {
            RuleText.WriteList(output.Writer, response.Rules);
        }
    }

    private static async Task<ListRulesResponse> ListAsync(
        Witness.WitnessClient client, ListRulesRequest request, CancellationToken cancellation)
    {
        try
        {
            return await client.ListRulesAsync(request, cancellationToken: cancellation);
        }
        catch (RpcException exception) when (exception.StatusCode == StatusCode.NotFound)
        {
            ListRulesResponse all = await client.ListRulesAsync(new ListRulesRequest(), cancellationToken: cancellation);
            string meant = NearestName.Of(request.Name, all.Rules.Select(static rule => rule.Name)) is { } nearest ? $" did you mean '{nearest}'?" : "";
            throw new CommandFailure($"no rule is named '{request.Name}';{meant} 'portwitness rules' lists them all.");
        }
    }
}
