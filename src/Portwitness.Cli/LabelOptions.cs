using System.CommandLine;
using System.CommandLine.Parsing;
using Portwitness.Cli.Files;

namespace Portwitness.Cli;

/// <summary>The two ways to give a label beside a capture.</summary>
internal sealed class LabelOptions
{
    public Option<string> Text { get; } = new("--label")
    {
        Description = "the printed label's text, or @FILE to read it from a file",
        HelpName = "TEXT|@FILE",
    };

    public Option<string> File { get; } = new("--label-file")
    {
        Description = "file with the printed label's text",
        HelpName = "FILE",
    };

    public bool IsGiven(CommandResult result) => result.GetValue(Text) is not null || result.GetValue(File) is not null;

    public void AddValidatorTo(Command command) => command.Validators.Add(result =>
    {
        if (result.GetValue(Text) is not null && result.GetValue(File) is not null)
        {
            result.AddError("give the label once, with --label or with --label-file.");
        }
    });

    public async Task<string?> ReadAsync(ParseResult parsed, Terminal terminal, CancellationToken cancellation)
    {
        string? text = parsed.GetValue(Text);
        string? file = parsed.GetValue(File) ?? (text is ['@', ..] ? text[1..] : null);
        return file is null ? text : await TextInput.ReadAsync(InputFile.From(file, terminal), cancellation);
    }
}
