namespace Portwitness.Captures;

/// <summary>Texts about archives and folders that hold a capture.</summary>
internal static partial class FaultText
{
    public const string ZipInvalid = "The zip archive is damaged, cut or encrypted. Unpack it, and give the file.";

    public static string ArchiveTooLong(ArchiveKind kind) =>
        $"A {Name(kind)} may have 64 MiB{(kind == ArchiveKind.Folder ? "" : ", and unpack to 250 times its length")}; this one was not read to its end. "
        + "Give the file itself.";

    public static string ArchiveWithoutCapture(ArchiveKind kind, string names) =>
        $"No file of the {Name(kind)} begins as a capture does: {names}. Of samples say with --samples what they are, for example "
        + $"u8.{(kind == ArchiveKind.Zip ? "zip" : "tar")}@4MS/s.";

    public static string ArchiveOfSeveral(ArchiveKind kind, string names) =>
        $"The {Name(kind)} holds several captures: {names}. Give each on its own"
        + (kind == ArchiveKind.Folder ? ", or all of them in a product file (portwitness new FOLDER writes one)." : ".");

    public static string ArchiveChosen(ArchiveKind kind, string names, string others, bool areLines)
    {
        string how = areLines ? ", as the two CC lines of one port" : names.Contains(", ", StringComparison.Ordinal) ? ", in this order" : "";
        return $"Of the {Name(kind)} was read: {names}{how}{(others.Length > 0 ? $"; left out: {others}" : "")}.";
    }

    private static string Name(ArchiveKind kind) => kind switch
    {
        ArchiveKind.Zip => "zip archive",
        ArchiveKind.Tar => "tar archive",
        _ => "folder",
    };
}
