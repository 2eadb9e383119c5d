namespace Portwitness.Captures;

/// <summary>Texts about archives and folders that hold a capture.</summary>
internal static partial class FaultText
{
    public const string ZipInvalid = "The zip archive is damaged, cut or encrypted. Unpack it, and give the file.";

    private const string Folder = "folder";

    public static string ArchiveTooLong(string kind) =>
        $"A {kind} may have 64 MiB{(kind == Folder ? "" : ", and unpack to 250 times its length")}; this one was not read to its end. "
        + "Give the file itself.";

    public static string ArchiveWithoutCapture(string kind, string names) =>
        $"No file of the {kind} begins as a capture does: {names}. Of samples say with --samples what they are, for example "
        + $"u8.{(kind == "zip archive" ? "zip" : "tar")}@4MS/s.";

    public static string ArchiveOfSeveral(string kind, string names) =>
        $"The {kind} holds several captures: {names}. Give each on its own"
        + (kind == Folder ? ", or all of them in a product file (portwitness new FOLDER writes one)." : ".");

    public static string ArchiveChosen(string kind, string names, string others, bool areLines)
    {
        string how = areLines ? ", as the two CC lines of one port" : names.Contains(", ", StringComparison.Ordinal) ? ", in this order" : "";
        return $"Of the {kind} was read: {names}{how}{(others.Length > 0 ? $"; left out: {others}" : "")}.";
    }
}
