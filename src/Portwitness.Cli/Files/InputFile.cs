using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>One input: a file, standard input, or bytes from the command line.</summary>
/// <param name="Name">As reports name it.</param>
/// <param name="Open">Opens it for one reading; <see cref="CommandFailure"/> says why it cannot be.</param>
internal sealed record InputFile(string Name, Func<Stream> Open)
{
    public const string StandardInput = "-";

    /// <summary>What was named on the command line, which may be a pipe.</summary>
    public static InputFile From(string path, Terminal terminal) => path == StandardInput
        ? new InputFile("standard input", () => terminal.Input)
        : new InputFile(path, () => FileKinds.Of(path) is FileKind.Pipe or FileKind.Device ? new LatePipe(path) : OpenFile(path));

    /// <summary>A capture, which may also be a folder: of the kernel's power-delivery class, or of one instrument's exports.</summary>
    public static InputFile CaptureFrom(string path, Terminal terminal) => Directory.Exists(path)
        ? new InputFile(path, () => OpenFolder(path, $"{path}:"))
        : From(path, terminal);

    /// <summary>A folder that is a capture.</summary>
    public static Stream OpenFolder(string path, string name) => SysfsFolder.Is(path) ? SysfsFolder.Open(path, name) : ExportFolder.Open(path, name);

    /// <summary>A file that is read without anybody having named it, or as one of many: a regular one only.</summary>
    public static Stream OpenFile(string path)
    {
        try
        {
            return RegularFile.Open(path, $"{path}:");
        }
        catch (Exception exception) when (exception is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new CommandFailure($"{path}: there is no such file; check the path, or give - for standard input.{FileNames.DidYouMean(path)}");
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: cannot be opened: {exception.Message}");
        }
    }
}
