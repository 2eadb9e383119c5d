using System.CommandLine;
using Portwitness.Captures.Offers;
using Portwitness.Cli.Files;
using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;
using Portwitness.Product;

namespace Portwitness.Cli.Options;

/// <summary>Offers that were typed, in place of a capture.</summary>
internal sealed class OffersOption
{
    public Option<string> Text { get; } = new("--offers")
    {
        Description = "what the source offers, as read off a display, in place of a file: \"5V 3A, 9V 3A, PPS 3.3-11V 3A\", @FILE, or the\n"
            + "display's photo. What a display does not show (flags, order, digits that it rounds off) is taken as unknown",
        HelpName = "OFFERS|@FILE|PHOTO",
    };

    /// <summary>The typed offers as a capture; null when none were given.</summary>
    public async Task<InputFile?> ReadAsync(ParseResult parsed, Terminal terminal, CancellationToken cancellation, PhotoReading? photos = null)
    {
        if (parsed.GetValue(Text) is not { } text)
        {
            return null;
        }

        string name = text is ['@', .. var named] ? named : text;
        if (FileKinds.Of(name) == FileKind.Regular && OfPhoto(InputFile.From(name, terminal), photos ?? new PhotoReading()) is { } recognised)
        {
            return new InputFile(name, () => new MemoryStream(recognised));
        }

        // A file's name in their place would be read as an offer that cannot be.
        if (text is not ['@', ..] && LabelOptions.LooksLikePath(text))
        {
            throw new CommandFailure($"--offers {text}: that is the name of a file, not what is offered; write --offers @{text}.");
        }

        string offers = text is ['@', .. var file] ? await TextInput.ReadAsync(InputFile.From(file, terminal), cancellation) : text;
        byte[] capture = TypedOfferText.ToCapture(offers);
        return new InputFile("offers", () => new MemoryStream(capture));
    }

    // Null for a file that is no photo.
    private static byte[]? OfPhoto(InputFile file, PhotoReading photos)
    {
        using Stream stream = file.Open();
        return PhotoStream.TryRead(stream, file.Name, photos) is { } table ? DisplayPhoto.ToCapture(table, isCompared: false) : null;
    }
}
