namespace Portwitness.Cli.Files;

/// <summary>One input: a file, standard input, or bytes from the command line.</summary>
/// <param name="Name">As reports name it.</param>
/// <param name="Open">Opens it for one reading; <see cref="CommandFailure"/> says why it cannot be.</param>
internal sealed record InputFile(string Name, Func<Stream> Open)
{
    public const string StandardInput = "-";

    public static InputFile From(string path, Terminal terminal) => path == StandardInput
        ? new InputFile("standard input", () => terminal.Input)
        : new InputFile(path, () => OpenFile(path));

    /// <summary>A capture, which may also be a folder of the kernel's power-delivery class.</summary>
    public static InputFile CaptureFrom(string path, Terminal terminal) => Directory.Exists(path)
        ? new InputFile(path, () => SysfsFolder.Open(path, $"{path}:"))
        : From(path, terminal);

    public static Stream OpenFile(string path)
    {
        if (Directory.Exists(path))
        {
            throw new CommandFailure($"{path}: is a folder; a file is expected here.");
        }

        try
        {
            return new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
        }
        catch (Exception exception) when (exception is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new CommandFailure($"{path}: there is no such file; check the path, or give - for standard input.");
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: cannot be opened: {exception.Message}");
        }
    }
}
