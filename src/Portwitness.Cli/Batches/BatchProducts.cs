using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Batches;

/// <summary>A product, or a capture, of a batch.</summary>
/// <param name="Path">Where it is, as messages name it.</param>
/// <param name="Problem">Why it cannot be looked at; null when it can.</param>
internal sealed record BatchProduct(string Path, string? Problem = null);

/// <summary>
/// Finds the product folders of a batch. What may be one, and cannot be looked at, is not left out: it is one with a problem.
/// </summary>
internal static class BatchProducts
{
    public static IReadOnlyList<BatchProduct> Find(IEnumerable<string> folders)
    {
        List<BatchProduct> products = [];
        foreach (string folder in folders)
        {
            if (!Directory.Exists(folder))
            {
                throw new CommandFailure($"{folder}: there is no such folder{Hint(folder)}.");
            }

            BatchProduct[] found = FileKinds.Of(Path.Combine(folder, ProductFolder.ProductFileName)) is not FileKind.Missing
                ? [new BatchProduct(folder)]
                : [.. FolderEntries.Of(folder).Select(ProductIn).OfType<BatchProduct>()];
            products.AddRange(found.Length > 0
                ? found
                : throw new CommandFailure($"{folder}: no subfolder holds a {ProductFolder.ProductFileName}."));
        }

        return Once(products);
    }

    /// <summary>Captures: files, and all files of folders, which are not searched further.</summary>
    public static IReadOnlyList<BatchProduct> FindCaptures(IEnumerable<string> paths)
    {
        List<BatchProduct> captures = [];
        foreach (string path in paths)
        {
            if (Directory.Exists(path) && !SysfsFolder.Is(path))
            {
                BatchProduct[] found = [.. FolderEntries.Of(path).Where(static entry => !IsHidden(entry) && entry.Kind != FileKind.Folder)
                    .Select(static entry => new BatchProduct(entry.Path, entry.IsSpelled ? FolderEntry.SpelledProblem : null))];
                captures.AddRange(found.Length > 0 ? found : throw new CommandFailure($"{path}: holds no file."));
            }
            else
            {
                captures.Add(Path.Exists(path) ? new BatchProduct(path)
                    : throw new CommandFailure($"{path}: there is no such file or folder{Hint(path)}."));
            }
        }

        return Once(captures);
    }

    // A folder that is given twice, by another way or within another one, counts once.
    private static List<BatchProduct> Once(List<BatchProduct> all) => [.. all.DistinctBy(static product => RealPlace(Path.GetFullPath(product.Path)))];

    // Links among the products themselves stand for products of their own.
    private static string RealPlace(string path) =>
        Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(path)) is { } above && FileKinds.Of(above) == FileKind.Folder
            ? Path.Combine(RealPath.Of(above), Path.GetFileName(Path.TrimEndingDirectorySeparator(path)))
            : path;

    private static BatchProduct? ProductIn(FolderEntry entry)
    {
        FileKind kind = entry.Kind;
        if (kind == FileKind.NotPermitted || (kind is FileKind.BrokenLink or FileKind.LinkCircle && !IsHidden(entry)))
        {
            return new BatchProduct(entry.Path, FileKinds.WhyUnreadable(kind));
        }

        return kind != FileKind.Folder ? null : entry.KindOf(ProductFolder.ProductFileName) switch
        {
            FileKind.Missing => null,
            _ when entry.IsSpelled => new BatchProduct(entry.Path, FolderEntry.SpelledProblem),
            FileKind.NotPermitted => new BatchProduct(entry.Path, "may not be searched; ask for permission to read it"),
            _ => new BatchProduct(entry.Path),
        };
    }

    // Editors leave hidden links that lead nowhere.
    private static bool IsHidden(FolderEntry entry) => entry.Name.StartsWith('.');

    // How .NET hands over what is not UTF-8 of a command line.
    private static string Hint(string path) => path.Contains('\uFFFD', StringComparison.Ordinal)
        ? "; a name that is not UTF-8 cannot be used, rename it" : "";
}
