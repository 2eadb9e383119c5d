using System.CommandLine;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using Grpc.Core;
using Portwitness.Cli.Commands;
using Portwitness.Cli.Connection;
using Portwitness.Cli.Options;
using Portwitness.Cli.Shell;
using Portwitness.Text;

namespace Portwitness.Cli;

/// <summary>The whole command line: parses, runs, and turns whatever goes wrong into a message and an exit code.</summary>
internal static class CommandLine
{
    private static readonly TimeSpan TimeToStop = TimeSpan.FromSeconds(5);
    private const int MaxMeant = 5;
    private static readonly TimeSpan TimeToExit = TimeSpan.FromSeconds(2);

    public static async Task<int> RunAsync(string[] args, Terminal terminal, ServeExtension? more = null)
    {
        // What was printed before something went wrong is printed.
        int exitCode = await GuardAsync(terminal, () => InvokeAsync(args, terminal, more));
        return Math.Max(exitCode, await GuardAsync(terminal, async () =>
        {
            await terminal.Output.FlushAsync();
            return ExitCode.Clean;
        }));
    }

    private static async Task<int> GuardAsync(Terminal terminal, Func<Task<int>> run)
    {
        try
        {
            return await run();
        }
        catch (CommandFailure failure)
        {
            return Fail(terminal, failure.Message, failure.ExitCode);
        }
        catch (OutputFailure failure)
        {
            return Fail(terminal, failure.Message, failure.ExitCode);
        }
        catch (RpcException exception) when (exception.StatusCode != StatusCode.Cancelled)
        {
            return Fail(terminal, ServiceFault.Describe(exception), ServiceFault.ExitCodeOf(exception));
        }
        catch (Exception exception) when (exception is OperationCanceledException or RpcException)
        {
            return Fail(terminal, "stopped.", ExitCode.Interrupted);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return Fail(terminal, exception.Message, ExitCode.Unusable);
        }
        catch (Exception exception)
        {
            return Fail(
                terminal,
                $"a fault in Portwitness itself ({exception.GetType().Name}: {exception.Message}) Please report it with the input.",
                ExitCode.Unusable);
        }
    }

    public static RootCommand Create(Terminal terminal, ServeExtension? more = null)
    {
        RootCommand root = new(
            "Tells whether a charger or power bank does what its label says: decodes captured USB Power Delivery\n"
            + "messages, checks them against the standard, and compares them with the printed label.")
        {
            DecodeCommand.Create(terminal),
            CheckCommand.Create(terminal),
            NewCommand.Create(terminal),
            BatchCommand.Create(terminal),
            CompareCommand.Create(terminal),
            PlanCommand.Create(terminal),
            ErrataCommand.Create(terminal),
            ProofCommand.Create(terminal),
            HistoryCommand.Create(terminal),
            LabelCommand.Create(terminal),
            NegotiateCommand.Create(terminal),
            ConvertCommand.Create(terminal),
            RulesCommand.Create(terminal),
            SynthesizeCommand.Create(terminal),
            WatchCommand.Create(terminal),
            SubmitCommand.Create(terminal),
            SubmissionsCommand.Create(terminal),
            ServeCommand.Create(terminal, more),
            TokensCommand.Create(terminal),
            CompletionCommand.Create(terminal),
        };
        root.HelpName = more?.Program ?? "portwitness";
        HelpWithExamples.Install(root);
        return root;
    }

    private static async Task<int> InvokeAsync(string[] args, Terminal terminal, ServeExtension? more)
    {
        // "@FILE" is ours: the file of a label, not of more arguments, but for serve, whose options live in a file.
        ParserConfiguration parsing = new();
        if (args is not ["serve", ..])
        {
            parsing.ResponseFileTokenReplacer = null;
        }

        ParseResult parsed = Create(terminal, more).Parse(args, parsing);
        using StopWatchdog? watchdog = terminal.IsOfProcess ? new StopWatchdog(TimeToStopOf(parsed) + TimeToExit) : null;
        InvocationConfiguration configuration = new()
        {
            Output = terminal.Output,
            Error = terminal.Error,
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = TimeToStopOf(parsed),
        };
        if (parsed.Action is not ParseErrorAction)
        {
            try
            {
                return await parsed.InvokeAsync(configuration);
            }
            catch (RpcException exception) when (exception.StatusCode != StatusCode.Cancelled && !IsRemote(parsed))
            {
                throw new CommandFailure(ServiceFault.DescribeOwn(exception, parsed.CommandResult.Command), ServiceFault.ExitCodeOf(exception));
            }
        }

        foreach (string message in parsed.Errors.Select(error => error.Message).Distinct())
        {
            terminal.Say(message);
        }

        foreach (string meant in Meant(parsed))
        {
            terminal.Say(meant);
        }

        terminal.Say($"run '{HelpWithExamples.FullName(parsed.CommandResult.Command)} --help' for usage and examples.");
        return ExitCode.Unusable;
    }

    private static bool IsRemote(ParseResult parsed) =>
        parsed.CommandResult.Command.Options.FirstOrDefault(static option => option.Name == CommonOptions.ServerName) is Option<string> server
        && !string.IsNullOrEmpty(parsed.GetValue(server));

    // What stands where a command or an option was expected, and is nearly one.
    private static IEnumerable<string> Meant(ParseResult parsed)
    {
        Command command = parsed.CommandResult.Command;
        IEnumerable<string> commands = command.Subcommands.Select(static one => one.Name);
        string[] options = [.. command.Options.Concat(parsed.RootCommandResult.Command.Options).SelectMany(static one => one.Aliases.Append(one.Name))];
        IEnumerable<string> refused = parsed.Tokens.Where(static token => token is { Type: TokenType.Argument, Value: ['-', _, ..] }).Select(static token => token.Value);
        foreach (string token in parsed.UnmatchedTokens.Concat(refused).Distinct().Take(MaxMeant))
        {
            string word = token.Split('=')[0];
            if (NearestName.Of(word, word.StartsWith('-') ? options : commands) is { } nearest)
            {
                yield return $"did you mean {nearest} by {word}?";
            }
        }
    }

    // A service lets end what has begun.
    private static TimeSpan TimeToStopOf(ParseResult parsed) =>
        parsed.CommandResult.Command.Options.OfType<Option<int>>().FirstOrDefault(static option => option.Name == WorkOptions.DrainName) is { } drain
            ? TimeToStop + TimeToStop + TimeSpan.FromSeconds(parsed.GetValue(drain)) : TimeToStop;

    private static int Fail(Terminal terminal, string message, int exitCode)
    {
        if (message.Length > 0)
        {
            terminal.Say(message);
        }

        return exitCode;
    }
}
