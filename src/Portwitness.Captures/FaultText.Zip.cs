using System.Globalization;

namespace Portwitness.Captures;

/// <summary>Texts about zip archives.</summary>
internal static partial class FaultText
{
    public const string ZipTooLong = "A zip archive may have 64 MiB, and unpack to 250 times its length; this one was not read to its end. Unpack it, and give the file.";

    public const string ZipInvalid = "The zip archive is damaged, cut or encrypted. Unpack it, and give the file.";

    public static string ZipWithoutCapture(string names) =>
        $"No file of the zip archive begins as a capture does: {names}. Of samples say with --samples what they are, for example u8.zip@4MS/s.";

    public static string ZipOfSeveral(string names) => $"The zip archive holds several captures: {names}. Unpack it, and give each on its own.";

    public static string ZipChosen(string name, int count) => count == 1
        ? $"Of the zip archive \"{Printable(name)}\" was read."
        : string.Create(CultureInfo.InvariantCulture, $"Of the zip archive \"{Printable(name)}\" and {count - 1} files that go on with it were read.");
}
