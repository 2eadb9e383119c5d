using System.CommandLine;
using Grpc.Core;
using Portwitness.Cli.Connection;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>rules: the catalogue, or one rule.</summary>
internal static class RulesCommand
{
    public static Command Create(Terminal terminal)
    {
        Argument<string> name = new Argument<string>("NAME")
        {
            Description = "one rule, as findings name it",
            Arity = ArgumentArity.ZeroOrOne,
        }.RefuseOptions();
        CommonOptions common = new();
        Command command = new("rules", "List the rules, or explain one with its clause, its reason and an example.") { name };
        common.AddOutputTo(command);
        command.Show("portwitness rules", "portwitness rules voltage-offered-twice", "portwitness rules --format json");
        command.SetAction(async (parsed, cancellation) =>
        {
            string wanted = parsed.GetValue(name) ?? "";
            await using ServiceConnection service = await ServiceConnection.OpenAsync(common.ServerFrom(parsed), cancellation);
            using ReportOutput output = new(terminal, common, parsed, single: true);
            ListRulesResponse response = await ListAsync(service.Client, wanted, cancellation);
            if (output.Json)
            {
                output.WriteJson(wanted.Length > 0 ? response.Rules[0] : response);
            }
            else if (wanted.Length > 0)
            {
                RuleText.WriteOne(output.Writer, response.Rules[0], output.Style);
            }
            else
            {
                RuleText.WriteList(output.Writer, response.Rules);
            }

            output.Commit();
            return ExitCode.Clean;
        });
        return command;
    }

    private static async Task<ListRulesResponse> ListAsync(
        Witness.WitnessClient client, string name, CancellationToken cancellation)
    {
        try
        {
            return await client.ListRulesAsync(new ListRulesRequest { Name = name }, cancellationToken: cancellation);
        }
        catch (RpcException exception) when (exception.StatusCode == StatusCode.NotFound)
        {
            throw new CommandFailure($"no rule is named '{name}'; 'portwitness rules' lists them all.");
        }
    }
}
