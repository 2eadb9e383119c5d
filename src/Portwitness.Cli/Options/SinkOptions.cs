using System.CommandLine;
using System.CommandLine.Parsing;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Options;

/// <summary>The options that say which devices ask, and how they choose.</summary>
internal sealed class SinkOptions
{
    public Option<string[]> Sinks { get; } = new("--sink")
    {
        Description = "device that asks: the name of a shipped one (--list shows them), all of these (all), a file of descriptions in YAML\n"
            + "(phone.yaml, @FILE), or words as \"fixed 5V, 9V 2A; pps 3.3-11V 3A; wish 25W\"; may be given several times",
        HelpName = "NAME|FILE|WORDS",
    };

    public Option<string> Policy { get; } = new("--policy")
    {
        Description = "how a device chooses among what it can use, an assumption that the report states; --list shows them all",
        HelpName = "NAME",
    };

    public Option<bool> List { get; } = new("--list") { Description = "list the shipped devices in words that --sink takes, and the policies" };

    public void AddTo(Command command)
    {
        command.Add(Sinks);
        command.Add(Policy);
        command.Add(List);
    }

    public bool AreFromStandardInput(CommandResult result) =>
        (result.GetValue(Sinks) ?? []).Any(static given => FileOf(given) == InputFile.StandardInput);

    public async Task<List<SinkInput>> ReadAsync(ParseResult parsed, Terminal terminal, CancellationToken cancellation)
    {
        List<SinkInput> texts = [];
        foreach (string given in parsed.GetValue(Sinks) ?? [])
        {
            texts.Add(FileOf(given) is { } file
                ? new SinkInput { File = file, Yaml = await TextInput.ReadAsync(InputFile.From(file, terminal), cancellation) }
                : new SinkInput { File = "--sink", Words = given });
        }

        return texts;
    }

    // Words have no ending.
    private static string? FileOf(string given) => given.StartsWith('@') ? given[1..]
        : given == InputFile.StandardInput || Path.GetExtension(given) is ".yaml" or ".yml" ? given
        : null;
}
