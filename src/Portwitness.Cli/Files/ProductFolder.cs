using Portwitness.Cli.Photos;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>
/// A product's folder as the service may ask for it: only files inside, and folders inside that are one capture, whatever the path says and
/// wherever links lead.
/// </summary>
internal sealed class ProductFolder(string folder, PhotoReading photos)
{
    public const string ProductFileName = "product.yaml";

    private readonly string _root = RealPath.Of(Path.GetFullPath(folder));

    /// <summary>The file that was asked for; <see cref="CommandFailure"/> says why it is not given.</summary>
    public Stream Open(string relative)
    {
        if (relative.Length == 0 || relative.Contains('\0') || Path.IsPathRooted(relative)
            || relative.Split('/', '\\').Contains(".."))
        {
            throw new CommandFailure("the path leaves the product's folder");
        }

        string real = RealPath.Of(Path.Combine(_root, relative));
        string inside = _root.EndsWith(Path.DirectorySeparatorChar) ? _root : _root + Path.DirectorySeparatorChar;
        if (!real.StartsWith(inside, StringComparison.Ordinal))
        {
            throw new CommandFailure("a link leads out of the product's folder");
        }

        if (Directory.Exists(real))
        {
            return InputFile.OpenFolder(real, "it");
        }

        try
        {
            return PhotoStream.Read(RegularFile.Open(real, "it"), relative, photos);
        }
        catch (Exception exception) when (exception is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new CommandFailure($"there is no such file.{FileNames.DidYouMean(Path.Combine(_root, relative)).Replace(inside, "", StringComparison.Ordinal)}".TrimEnd('.'));
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure("the file cannot be opened");
        }
    }
}
