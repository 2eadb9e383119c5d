using System.Collections.Concurrent;

namespace Portwitness.Cli.Photos;

/// <summary>How photos are read, and their pictures for a page.</summary>
/// <param name="languages">As "tesseract" names them.</param>
/// <param name="keepsPictures">Whether pictures are wanted.</param>
internal sealed class PhotoReading(string languages = PhotoReading.UsualLanguages, bool keepsPictures = false)
{
    /// <summary>What is taken where nothing is stated.</summary>
    public const string UsualLanguages = "eng";

    private readonly ConcurrentDictionary<string, byte[]> _pictures = new();

    /// <summary>As "tesseract" names them.</summary>
    public string Languages => languages;

    /// <summary>Whether pictures are wanted.</summary>
    public bool KeepsPictures => keepsPictures;

    /// <summary>Pictures as JPEG by the text that was recognised on them, whose boxes stand in them; of few bytes, and nothing but pixels.</summary>
    public IReadOnlyDictionary<string, byte[]> Pictures => _pictures;

    /// <summary>Keeps a picture.</summary>
    public void Keep(string text, byte[] picture) => _pictures[text] = picture;
}
