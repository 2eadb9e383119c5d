using System.CommandLine;
using Portwitness.Cli.Photos;

namespace Portwitness.Cli.Options;

/// <summary>--photo-languages: the languages of photos.</summary>
internal sealed class PhotoOption
{
    private const int MaxLength = 100;

    /// <summary>The option.</summary>
    public Option<string> Languages { get; } = new("--photo-languages")
    {
        Description = "languages of photos, as tesseract names them, for example eng+deu or chi_sim",
        HelpName = "LANGUAGES",
        DefaultValueFactory = static _ => PhotoReading.UsualLanguages,
    };

    /// <summary>What was given.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="keepsPictures">Whether pictures are wanted for a page.</param>
    public PhotoReading From(ParseResult parsed, bool keepsPictures = false) => new(parsed.GetValue(Languages) ?? PhotoReading.UsualLanguages, keepsPictures);

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
