using System.CommandLine;

namespace Portwitness.Cli.Options;

/// <summary>--photo-languages: the languages of a label that is a photo.</summary>
internal sealed class PhotoOption
{
    /// <summary>What is taken where nothing is stated.</summary>
    public const string Usual = "eng";

    private const int MaxLength = 100;

    /// <summary>The option.</summary>
    public Option<string> Languages { get; } = new("--photo-languages")
    {
        Description = "languages of a label that is a photo, as tesseract names them, for example eng+deu or chi_sim",
        HelpName = "LANGUAGES",
        DefaultValueFactory = static _ => Usual,
    };

    /// <summary>What was given; the usual one for commands that do not ask.</summary>
    public string From(ParseResult parsed) => parsed.GetValue(Languages) ?? Usual;

    /// <summary>An option that refuses what is no name of languages.</summary>
    public PhotoOption() => Languages.Validators.Add(static result =>
    {
        string given = result.GetValueOrDefault<string>() ?? "";
        if (given.Length is 0 or > MaxLength || !given.All(static one => char.IsAsciiLetterOrDigit(one) || one is '_' or '+' or '-') || given[0] == '-')
        {
            result.AddError("--photo-languages takes names of languages joined by +, for example eng+deu; tesseract --list-langs shows those that are installed.");
        }
    });
}
