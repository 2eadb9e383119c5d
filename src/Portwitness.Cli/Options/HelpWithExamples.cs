using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.Runtime.CompilerServices;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Options;

/// <summary>Adds each command's examples, and the exit codes, to its help.</summary>
internal static class HelpWithExamples
{
    private const string ExitCodes = """
        Exit codes:
          0  nothing at or above --fail-on
          1  findings at or above --fail-on
          2  input that cannot be used, or a command line that cannot be understood
          3  the service cannot be reached
        """;

    private static readonly ConditionalWeakTable<Command, string> Examples = [];

    /// <summary>States the examples of a command, one a line.</summary>
    public static void Show(this Command command, params string[] examples) =>
        Examples.Add(command, string.Join(Environment.NewLine, examples.Select(example => "  " + example)));

    public static void Install(RootCommand root)
    {
        root.Show(
            "portwitness decode --words \"0x0801912C 0x0002D12C\"",
            "portwitness check chargers/th-65",
            "portwitness batch chargers --output reports");
        HelpOption help = root.Options.OfType<HelpOption>().Single();
        help.Action = new ActionWithExamples((HelpAction)help.Action!);
    }

    public static string FullName(Command command) =>
        command is RootCommand ? "portwitness" : $"{FullName(command.Parents.OfType<Command>().First())} {command.Name}";

    private sealed class ActionWithExamples(HelpAction usual) : SynchronousCommandLineAction
    {
        public override bool ClearsParseErrors => true;

        public override int Invoke(ParseResult parseResult)
        {
            usual.Invoke(parseResult);
            TextWriter output = parseResult.InvocationConfiguration.Output;
            if (Examples.TryGetValue(parseResult.CommandResult.Command, out string? examples))
            {
                output.WriteLine("Examples:");
                output.WriteLine(examples);
                output.WriteLine();
            }

            output.WriteLine(ExitCodes);
            return ExitCode.Clean;
        }
    }
}
