using System.CommandLine;
using System.Globalization;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.History;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Commands;

/// <summary>tokens: who may use a service.</summary>
internal static class TokensCommand
{
    private static readonly string[] Roles = ["read", "submit", "admin"];

    public static Command Create(Terminal terminal)
    {
        Command command = new("tokens", "Make, list and revoke the tokens that a service with --require-tokens asks for. They are kept in its store, hashed.")
        {
            CreateCommand(terminal), ListCommand(terminal), RevokeCommand(terminal),
        };
        command.Show(
            "portwitness tokens create bench-3 --role submit",
            "portwitness tokens list",
            "portwitness tokens revoke 5b3c81e0");
        return command;
    }

    private static Command CreateCommand(Terminal terminal)
    {
        Argument<string> name = new("NAME") { Description = "whose it is: a bench, a person, a script" };
        name.Validators.Add(result =>
        {
            if (string.IsNullOrWhiteSpace(result.GetValueOrDefault<string>()) || result.GetValueOrDefault<string>()!.Length > 200)
            {
                result.AddError("NAME takes 1 to 200 characters.");
            }
        });
        Option<string> role = new Option<string>("--role")
        {
            Description = "read: list and open reports; submit: also have products judged; admin: also look after the queue", Required = true, HelpName = string.Join('|', Roles),
        }.AcceptOnlyFromAmong(Roles);
        Option<DateTimeOffset?> expires = new("--expires") { Description = "when it ends; never without it", HelpName = "DATE", CustomParser = DateOption.Read };
        StoreOption store = NewStore();
        Command command = new("create", "Make a token and print it. It is shown this once: whoever has it has its role.") { name, role, expires, store.Where };
        command.Show("portwitness tokens create bench-3 --role submit --expires 2027-06-30 --store /var/lib/portwitness/reports.db");
        command.SetAction(async (parsed, cancellation) =>
        {
            await using IReportStore kept = await OpenAsync(store, parsed, cancellation);
            (ApiToken token, string secret) = await kept.Tokens.CreateAsync(
                parsed.GetRequiredValue(name), Enum.Parse<TokenRole>(parsed.GetRequiredValue(role), ignoreCase: true), parsed.GetValue(expires), cancellation);
            await terminal.Output.WriteLineAsync(secret);
            terminal.Say($"token {token.Id} ({parsed.GetValue(role)}); clients take it from PORTWITNESS_TOKEN or from the file that PORTWITNESS_TOKEN_FILE names. It is not shown again.");
            return ExitCode.Clean;
        });
        return command;
    }

    private static Command ListCommand(Terminal terminal)
    {
        StoreOption store = NewStore();
        Command command = new("list", "List all tokens, without their secrets.") { store.Where };
        command.SetAction(async (parsed, cancellation) =>
        {
            await using IReportStore kept = await OpenAsync(store, parsed, cancellation);
            TextTable table = new();
            table.Add("token", "role", "created", "expires", "state", "name");
            DateTimeOffset now = DateTimeOffset.UtcNow;
            foreach (ApiToken token in await kept.Tokens.ListAsync(cancellation))
            {
                table.Add(
                    token.Id, token.Role.ToString().ToLowerInvariant(), Time(token.Created), token.Expires is { } end ? Time(end) : "never",
                    token.Revoked is { } revoked ? $"revoked {Time(revoked)}" : token.IsValidAt(now) ? "valid" : "expired", VisibleText.Of(token.Name));
            }

            table.Write(terminal.Output, "");
            return ExitCode.Clean;
        });
        return command;
    }

    private static Command RevokeCommand(Terminal terminal)
    {
        Argument<string> id = new("TOKEN") { Description = "its number, as the list has it" };
        StoreOption store = NewStore();
        Command command = new("revoke", "End a token. A service that has just seen it takes it for five more seconds.") { id, store.Where };
        command.SetAction(async (parsed, cancellation) =>
        {
            await using IReportStore kept = await OpenAsync(store, parsed, cancellation);
            string token = parsed.GetRequiredValue(id);
            return await kept.Tokens.RevokeAsync(token, cancellation) ? ExitCode.Clean
                : throw new CommandFailure($"no token {VisibleText.Of(token)} is there to revoke; 'portwitness tokens list' has them.");
        });
        return command;
    }

    private static string Time(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    private static StoreOption NewStore()
    {
        StoreOption store = new();
        store.Where.Description = "the service's store; without it the file in the user's state folder, as for serve";
        return store;
    }

    private static Task<IReportStore> OpenAsync(StoreOption store, ParseResult parsed, CancellationToken cancellation) =>
        StoreOption.OpenAsync(parsed.GetValue(store.Where) ?? StoreOption.Usual, cancellation);
}
