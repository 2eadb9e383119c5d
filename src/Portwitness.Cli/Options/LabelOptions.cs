using System.CommandLine;
using System.CommandLine.Parsing;
using Portwitness.Cli.Files;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Options;

/// <summary>The two ways to give a label beside a capture.</summary>
internal sealed class LabelOptions
{
    public Option<string> Text { get; } = new("--label")
    {
        Description = "the printed label's text, @FILE, or the name of a file that is there",
        HelpName = "TEXT|@FILE|FILE",
    };

    public Option<string> File { get; } = new("--label-file")
    {
        Description = "file with the printed label's text, or a photo of the label",
        HelpName = "FILE",
    };

    /// <summary>Languages of a label that is a photo, here and in a product's folder.</summary>
    public PhotoOption Photo { get; } = new();

    public bool IsGiven(CommandResult result) => result.GetValue(Text) is not null || result.GetValue(File) is not null;

    public void AddValidatorTo(Command command) => command.Validators.Add(result =>
    {
        if (result.GetValue(Text) is not null && result.GetValue(File) is not null)
        {
            result.AddError("give the label once, with --label or with --label-file.");
        }
    });

    // A file's name that is mistaken for a label would be read as a label without a rating.
    private static bool IsFileName(string text) => text is not ['@', ..] && !text.Contains('\n', StringComparison.Ordinal) && LooksLikePath(text);

    /// <summary>Whether a text is one word that ends like a file's name and no number: "labels/th-65.txt".</summary>
    public static bool LooksLikePath(string text) =>
        !text.Any(char.IsWhiteSpace) && Path.GetExtension(text) is { Length: >= 3 and <= 5 } extension
        && extension.Skip(1).All(char.IsAsciiLetter) && !extension.Equals(".dc", StringComparison.OrdinalIgnoreCase);

    public Task<string?> ReadAsync(ParseResult parsed, Terminal terminal, CancellationToken cancellation) => ReadAsync(parsed, Photo.From(parsed), terminal, cancellation);

    /// <summary>The label; a photo of it is read as is said, and keeps its picture there.</summary>
    public async Task<string?> ReadAsync(ParseResult parsed, PhotoReading photos, Terminal terminal, CancellationToken cancellation)
    {
        string? text = parsed.GetValue(Text);
        if (text is not null && text is not ['@', ..] && System.IO.File.Exists(text))
        {
            terminal.Say($"--label {text}: there is a file of this name, and the label is read from it.");
            text = "@" + text;
        }
        else if (text is not null && IsFileName(text))
        {
            throw new CommandFailure($"--label {text}: that is the name of a file, and there is none.{FileNames.DidYouMean(text)} Give the file, or what is printed.");
        }

        string? file = parsed.GetValue(File) ?? (text is ['@', ..] ? text[1..] : null);
        return file is null ? text : await TextInput.ReadLabelAsync(InputFile.From(file, terminal), photos, cancellation);
    }
}
