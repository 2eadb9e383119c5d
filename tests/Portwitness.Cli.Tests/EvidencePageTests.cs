using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>captures/EVIDENCE.md: each command is run, and what the page shows of its output is there, in this order.</summary>
public sealed class EvidencePageTests
{
    private const string Prompt = "$ portwitness ";

    public static TheoryData<string, string> Commands
    {
        get
        {
            TheoryData<string, string> commands = [];
            (string? command, List<string> shown, bool inside) = (null, [], false);
            foreach (string line in File.ReadLines(Repository.PathOf("captures", "EVIDENCE.md")))
            {
                bool begins = inside && line.StartsWith(Prompt, StringComparison.Ordinal);
                bool isFence = line.StartsWith("```", StringComparison.Ordinal);
                if (command is not null && (begins || isFence))
                {
                    commands.Add(command, string.Join('\n', shown));
                    (command, shown) = (null, []);
                }

                inside = isFence ? line == "```console" : inside;
                command = begins ? line[Prompt.Length..] : command;
                if (command is not null && !begins)
                {
                    shown.Add(line);
                }
            }

            return commands;
        }
    }

    [Fact]
    public void Page_HasTenCommandsOrMore() => Commands.Count.Should().BeGreaterThanOrEqualTo(10);

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Command_SaysWhatThePageShows(string command, string shown)
    {
        string[] words = [.. Words(command).Select(static word => word.StartsWith("captures/", StringComparison.Ordinal) ? Repository.PathOf(word.Split('/')) : word)];

        CliRun run = await CliRun.Async(words);

        run.ExitCode.Should().Be(shown.Contains("Verdict: FAILS", StringComparison.Ordinal) ? ExitCode.Findings : ExitCode.Clean, run.Error);
        string output = Squashed(run.Output);
        int at = 0;
        foreach (string line in shown.Split('\n').Select(Squashed).Where(static line => line.Length > 0))
        {
            int found = output.IndexOf(line, at, StringComparison.Ordinal);
            found.Should().BeGreaterThanOrEqualTo(0, "\"{0}\" is shown by the page, and the output is: {1}", line, run.Output);
            at = found + line.Length;
        }
    }

    private static string Squashed(string text) => string.Join(' ', text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    // As a shell cuts them: at blanks outside of quotation marks.
    private static IEnumerable<string> Words(string command)
    {
        StringBuilder word = new();
        bool isQuoted = false;
        foreach (char letter in command + " ")
        {
            if (letter == '"')
            {
                isQuoted = !isQuoted;
            }
            else if (letter == ' ' && !isQuoted)
            {
                yield return word.ToString();
                word.Clear();
            }
            else
            {
                word.Append(letter);
            }
        }
    }
}
